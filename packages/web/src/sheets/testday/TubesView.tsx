import type { Item, Point } from '@sunlap/drawing/display';
import { panelSheet } from '@sunlap/drawing/panelSheet';
import type { SheetTube } from '@sunlap/drawing/sheetTube';
import { useEffect, useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, narrow, study, units } from '../../app/state';
import type { SideAnswer } from '../../compute/side';
import { Cautions } from '../../parts/Cautions';
import { Picture } from '../../parts/Picture';
import { QuantityInput } from '../../parts/QuantityInput';
import { useSize } from '../../parts/useSize';
import { heatScale, panelData, panelInput } from '../../shape/panelInput';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { d } from '../../text/testday';
import { setTouch, setTube, type TubeName, touchOf, tubeOf } from './edits';
import { changeDay, day } from './state';
import { percent } from './words';

const FEELS = ['cool', 'warm', 'hot'] as const;

/** Mark at a tube's outlet: circle cool, square warm, triangle hot; a shape each, so that colour is not needed. */
function mark(at: Point, feel: 'cool' | 'warm' | 'hot'): Item {
  const [x, y] = at;
  const common = { layer: 'flag' as const, ink: 'ink' as const, width: 1.4 };
  if (feel === 'cool') return { kind: 'circle', ...common, centre: at, radius: 4.5, fill: 'sheet' };
  const points: Point[] =
    feel === 'warm'
      ? [
          [x - 4, y - 4],
          [x + 4, y - 4],
          [x + 4, y + 4],
          [x - 4, y + 4],
        ]
      : [
          [x, y - 6],
          [x + 6, y + 5],
          [x - 6, y + 5],
        ];
  return { kind: 'polyline', ...common, points, closed: true, fill: feel === 'hot' ? 'ink' : 'sheet' };
}

const sameTube = (a: TubeName, b: TubeName) =>
  a.section === b.section && a.bank === b.bank && a.tube === b.tube;

/** Hand or thermometer on each tube, on the drawing of the panel. */
export function TubesView({ judged }: { judged: SideAnswer<'testDay'> }) {
  const { store } = useApp();
  const { ref, width, height } = useSize<HTMLDivElement>();
  const [at, setAt] = useState(0);
  const [mode, setMode] = useState<'touch' | 'number'>('touch');
  const now = day.value;
  const { collector } = doc.value.project;
  const all: TubeName[] = collector.sections.flatMap((s) =>
    s.banks.flatMap((b) =>
      Array.from({ length: b.count }, (_, i) => ({ section: s.id, bank: b.id, tube: i + 1 })),
    ),
  );
  const here = all[Math.min(at, all.length - 1)];
  const small = narrow.value;
  useEffect(() => {
    if (at >= all.length) setAt(0);
  }, [all.length]);
  const sheet =
    width > 60
      ? panelSheet(panelInput(collector), panelData(study.value, heatScale(study.value)), {
          width,
          height,
          margin: small
            ? { left: 40, right: 40, top: 20, bottom: 20 }
            : { left: 58, right: 58, top: 30, bottom: 30 },
          dimensionGap: 400,
          countGap: 800,
          numberGap: small ? 22 : 27,
          mode: 'heat',
          leastPitch: small ? 7 : 10,
          trueScale: false,
          ...(small && collector.sections.length > 1 ? { only: here.section } : {}),
        })
      : null;
  const lineOf = (one: TubeName): SheetTube | undefined =>
    sheet?.tubes.find((s) => s.section === one.section && s.bank === one.bank && s.position === one.tube);
  const outlet = (line: SheetTube): Point => {
    const [dx, dy] = [line.to[0] - line.from[0], line.to[1] - line.from[1]];
    return [line.to[0] - dx * 0.09, line.to[1] - dy * 0.09];
  };
  const items: Item[] = [];
  if (sheet !== null && now !== null)
    for (const one of all) {
      const line = lineOf(one);
      if (line === undefined) continue;
      const feel = touchOf(now, one);
      if (feel !== null) items.push(mark(outlet(line), feel));
      else if (tubeOf(now, one) !== null) items.push(mark(outlet(line), 'cool'));
    }
  const current = lineOf(here);
  const felt =
    now === null ? 0 : all.filter((one) => touchOf(now, one) !== null || tubeOf(now, one) !== null).length;
  const go = (step: number) => setAt((((at + step) % all.length) + all.length) % all.length);
  const suspects = (judged.answer?.tubes ?? []).filter((x) => x.finding !== 'runs');
  const bankName = (one: TubeName) =>
    collector.sections.find((s) => s.id === one.section)?.banks.find((b) => b.id === one.bank)?.name ??
    one.bank;
  const name = `${bankName(here)}, ${t.tube.name(here.bank, here.tube)}`;
  return (
    <div class="survey">
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the keys below reach every tube */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: as above */}
      <div
        class="canvas survey-panel"
        ref={ref}
        onClick={(event) => {
          if (sheet === null) return;
          const box = event.currentTarget.getBoundingClientRect();
          const i = nearest(sheet.tubes, event.clientX - box.left, event.clientY - box.top);
          const found = i === null ? -1 : all.findIndex((one) => sameTube(one, { ...i, tube: i.position }));
          if (found >= 0) setAt(found);
        }}
      >
        {sheet !== null && (
          <Picture
            items={[...sheet.items.filter((i) => i.layer !== 'dimension'), ...items]}
            width={width}
            height={height}
            name="survey"
            title={d.tubes.title}
            says={`${d.tubes.done(felt, all.length)}. ${suspects.map((x) => `${t.tube.name(x.bank, x.tube)} ${t.tube[x.finding === 'airBound' ? 'airBound' : 'blocked']}`).join(', ')}`}
          >
            {current !== undefined && (
              <line
                class="tube-marked"
                x1={current.from[0]}
                y1={current.from[1]}
                x2={current.to[0]}
                y2={current.to[1]}
                stroke-width={current.width + 7}
              />
            )}
          </Picture>
        )}
      </div>
      <section class="card survey-keys" aria-labelledby="survey-title">
        <div class="card-head">
          <h2 id="survey-title">{d.tubes.title}</h2>
          <fieldset class="segments" aria-label={d.tubes.mode}>
            {(['touch', 'number'] as const).map((m) => (
              <button key={m} type="button" aria-pressed={mode === m} onClick={() => setMode(m)}>
                {m === 'touch' ? d.tubes.byHand : d.tubes.byNumber}
              </button>
            ))}
          </fieldset>
        </div>
        <p class="hint">{d.tubes.hint}</p>
        {now === null ? (
          <p>{d.tubes.needDay}</p>
        ) : (
          <>
            <div class="survey-at">
              <button type="button" class="stepper" aria-label={d.tubes.previous} onClick={() => go(-1)}>
                ‹
              </button>
              <output aria-live="polite">{name}</output>
              <button type="button" class="stepper" aria-label={d.tubes.next} onClick={() => go(1)}>
                ›
              </button>
            </div>
            {mode === 'touch' ? (
              <div class="feels">
                {FEELS.map((feel) => {
                  const is = touchOf(now, here) === feel;
                  return (
                    <button
                      key={feel}
                      type="button"
                      class="feel"
                      aria-pressed={is}
                      onClick={() => {
                        changeDay(
                          store,
                          d.steps.touch(`${here.bank}-${here.tube}`, is ? d.tubes.clear : feel),
                          (one) => setTouch(one, here, is ? null : feel),
                        );
                        if (!is) go(1);
                      }}
                    >
                      <svg width="20" height="20" viewBox="-10 -10 20 20" aria-hidden="true">
                        {feel === 'cool' ? (
                          <circle r="6" class="feel-mark" />
                        ) : feel === 'warm' ? (
                          <rect x="-6" y="-6" width="12" height="12" class="feel-mark" />
                        ) : (
                          <path d="M0 -8L8 6H-8z" class="feel-mark feel-hot" />
                        )}
                      </svg>
                      {d.tubes.feel[feel]}
                    </button>
                  );
                })}
              </div>
            ) : (
              <QuantityInput
                key={`${here.bank}-${here.tube}`}
                label={name}
                kind="temperature"
                value={tubeOf(now, here)}
                min={-20}
                max={110}
                onValue={(v) =>
                  changeDay(
                    store,
                    d.steps.tube(`${here.bank}-${here.tube}`, say(v, 'temperature', units.value)),
                    (one) => setTube(one, here, v),
                  )
                }
                onEmpty={() =>
                  changeDay(store, d.steps.tube(`${here.bank}-${here.tube}`, d.tubes.clear), (one) =>
                    setTube(one, here, null),
                  )
                }
              />
            )}
            <p class="hint">{d.tubes.done(felt, all.length)}</p>
          </>
        )}
        <Cautions hand="tube" short />
        {felt > 0 && (
          <>
            <h3>{d.tubes.found}</h3>
            {suspects.length === 0 ? (
              <p class="hint">{judged.fresh ? d.tubes.nothing : d.answer.working}</p>
            ) : (
              <ul class="doubts-advice">
                {suspects.map((x) => (
                  <li key={`${x.bank}-${x.tube}`}>
                    <strong>{t.tube.name(x.bank, x.tube)}</strong>{' '}
                    {x.finding === 'choked'
                      ? d.tubes.choked
                      : t.tube[x.finding === 'airBound' ? 'airBound' : 'blocked']}
                    : {percent(x.share)} ({percent(x.low)} – {percent(x.high)}) {d.tubes.share}
                    {x.gain_W !== null &&
                      x.gain_W > 0 &&
                      ` ${d.tubes.gain(say(x.gain_W, 'heatRate', units.value))}`}
                  </li>
                ))}
              </ul>
            )}
          </>
        )}
      </section>
    </div>
  );
}

function nearest(tubes: readonly SheetTube[], x: number, y: number): SheetTube | null {
  let best: SheetTube | null = null;
  let least = 30;
  for (const tube of tubes) {
    const [dx, dy] = [tube.to[0] - tube.from[0], tube.to[1] - tube.from[1]];
    const u = Math.max(
      0,
      Math.min(1, ((x - tube.from[0]) * dx + (y - tube.from[1]) * dy) / (dx * dx + dy * dy || 1)),
    );
    const distance = Math.hypot(x - tube.from[0] - dx * u, y - tube.from[1] - dy * u);
    if (distance < least) {
      least = distance;
      best = tube;
    }
  }
  return best;
}
