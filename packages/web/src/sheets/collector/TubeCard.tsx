import { useEffect, useRef } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, study, tubeOpen, units } from '../../app/state';
import { markOf, markTube, plugOf, type TubeMark } from '../../edits/tubes';
import { Cautions } from '../../parts/Cautions';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { stateWords } from './says';

const MARKS: TubeMark[] = ['open', 'blocked', 'airBound'];

async function openHistory(): Promise<void> {
  const { view } = await import('../testday/state');
  view.value = 'history';
  tubeOpen.value = null;
  location.hash = 'testday';
}

/** A repair is undone by what was done next, not by a mark on the drawing. */
function Plugged() {
  return (
    <>
      <p>{t.tube.unplug}</p>
      <p class="note-acts">
        <button type="button" class="act act-quiet" onClick={() => void openHistory()}>
          {t.tube.history}
        </button>
      </p>
    </>
  );
}

/** One tube: what it carries, and what the person knows of it. */
export function TubeCard() {
  const { store } = useApp();
  const open = tubeOpen.value;
  const box = useRef<HTMLDivElement>(null);
  const key = open === null ? '' : `${open.bank}/${open.position}`;
  useEffect(() => {
    box.current
      ?.querySelector<HTMLElement>('[aria-pressed="true"], .note-acts button')
      ?.focus({ preventScroll: true });
  }, [key]);
  if (open === null) return null;
  const { collector } = doc.value.project;
  const bank = collector.sections.find((s) => s.id === open.section)?.banks.find((b) => b.id === open.bank);
  if (bank === undefined || open.position > bank.count) return null;
  const flow = study.value?.flow.result.collector.banks
    .find((b) => b.section === open.section && b.id === open.bank)
    ?.tubes.find((x) => x.position === open.position);
  const heat = study.value?.heat?.result.banks
    .find((b) => b.section === open.section && b.id === open.bank)
    ?.tubes.find((x) => x.position === open.position);
  const mark = markOf(bank, open.position);
  const plug = plugOf(doc.value.project, open.section, open.bank, open.position);
  const u = units.value;
  const rows: [string, string][] =
    flow === undefined
      ? []
      : [
          [t.tube.share, `${Math.round(flow.share * 100)} ${t.read.ofMean}`],
          [t.tube.speed, say(flow.velocity_ms, 'speed', u)],
          ...(heat === undefined
            ? []
            : [
                [
                  flow.state === 'blocked' ? t.tube.stands : t.tube.out,
                  say(heat.outlet_C, 'temperature', u),
                ] as [string, string],
              ]),
        ];
  const step = (d: number) => {
    tubeOpen.value = { ...open, position: Math.min(bank.count, Math.max(1, open.position + d)) };
  };
  return (
    <div
      class="tube-card"
      ref={box}
      role="dialog"
      aria-label={t.tube.name(open.bank, open.position)}
      onKeyDown={(event) => {
        if (event.key === 'Escape') tubeOpen.value = null;
        if (event.key === 'ArrowUp') step(1);
        if (event.key === 'ArrowDown') step(-1);
      }}
    >
      <div class="editor-head">
        <h2>{t.tube.name(open.bank, open.position)}</h2>
        <button type="button" class="plain" aria-label={t.close} onClick={() => (tubeOpen.value = null)}>
          ×
        </button>
      </div>
      <div class="tube-steps">
        <button
          type="button"
          class="stepper"
          aria-label={t.tube.previous}
          disabled={open.position <= 1}
          onClick={() => step(-1)}
        >
          ‹
        </button>
        <label class="family">
          <span class="away">{t.tube.pass}</span>
          <select
            value={`${open.section}/${open.bank}`}
            onChange={(event) => {
              const [section, pass] = event.currentTarget.value.split('/');
              tubeOpen.value = { section, bank: pass, position: 1 };
            }}
          >
            {collector.sections.flatMap((s) =>
              s.banks.map((b) => (
                <option key={`${s.id}/${b.id}`} value={`${s.id}/${b.id}`}>
                  {b.name ?? b.id}
                </option>
              )),
            )}
          </select>
        </label>
        <button
          type="button"
          class="stepper"
          aria-label={t.tube.next}
          disabled={open.position >= bank.count}
          onClick={() => step(1)}
        >
          ›
        </button>
      </div>
      {flow !== undefined && (
        <p class="hint">
          {stateWords(doc.value.project, open.section, open.bank, flow)}
          {flow.state === 'full' && `; ${t.tube.air[flow.air]}`}
        </p>
      )}
      <dl>
        {rows.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {plug !== null ? (
        <Plugged />
      ) : (
        <fieldset class="segments" aria-label={t.tube.mark}>
          {MARKS.map((m) => (
            <button
              key={m}
              type="button"
              aria-pressed={mark === m}
              onClick={() =>
                store.apply(t.steps.mark(open.bank, open.position, t.tube[m]), {
                  doc: {
                    ...doc.value,
                    project: {
                      ...doc.value.project,
                      collector: markTube(collector, open.section, open.bank, open.position, m),
                    },
                  },
                  undo: 'commit',
                })
              }
            >
              {t.tube[m]}
            </button>
          ))}
        </fieldset>
      )}
      {mark !== 'open' && <Cautions hand="tube" />}
    </div>
  );
}
