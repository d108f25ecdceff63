import type { BuildDrawing } from '@sunlap/drawing/buildPlan';
import type { BuildValues } from '@sunlap/workbench/build/build';
import type { HeaderPlan } from '@sunlap/workbench/build/header-plan';
import { useApp } from '../../app/context';
import { doc, narrow, units } from '../../app/state';
import { say } from '../../shape/quantity';
import { b } from '../../text/build';
import { saveDrawing } from './export';
import { Figure } from './Figure';
import { Plan } from './Plan';
import type { Built } from './protocol';
import { drawingId } from './state';
import { type Measured, setMeasured } from './stock';

/** As it stands in the list: what it is, not all the passes that it is for. */
const short = (d: BuildDrawing): string => d.title.split(/, for /)[0];

/** A measured header, and what the measure does. */
function Bench({ plan }: { plan: HeaderPlan }) {
  const { store } = useApp();
  const u = units.value;
  const own = doc.value.project.stock?.measured?.find((row) => row.part === plan.tee.part);
  const field = (key: Exclude<keyof Measured, 'part'>, label: string, now_m: number) => (
    <Figure
      key={`${plan.tee.part} ${key}`}
      label={label}
      kind="diameter"
      value={own?.[key] ?? null}
      min={0.003}
      max={0.3}
      placeholder={say(now_m, 'diameter', u)}
      set={(v) => {
        const { doc: old } = store.get();
        const [word] = label.split(',');
        store.apply(v === null ? b.header.back(word) : b.header.set(word, say(v, 'diameter', u)), {
          doc: { ...old, project: setMeasured(old.project, plan.tee.part, key, v) },
          undo: 'commit',
        });
      }}
    />
  );
  const facts: [string, string][] = [
    [b.header.nipple, say(plan.nipple_m, 'diameter', u)],
    [b.header.least, say(plan.leastNipple_m, 'diameter', u)],
    [b.header.pitch, say(plan.pitch_m, 'diameter', u)],
    [b.header.leastPitch, say(plan.leastPitch_m, 'diameter', u)],
    [b.header.inRow, say(plan.errorInRow_m, 'diameter', u)],
    [b.header.withJig, say(plan.errorWithJig_m, 'diameter', u)],
    [b.header.moulding, say(plan.mouldingError_m, 'diameter', u)],
    ...(plan.twistPerDegree_m > 0
      ? ([[b.header.twist, say(plan.twistPerDegree_m, 'diameter', u)]] as [string, string][])
      : []),
    [b.header.centres, say(plan.centres_m, 'length', u)],
  ];
  return (
    <section class="bench" aria-label={b.header.title}>
      <div class="bench-fields">
        <h2>{b.header.title}</h2>
        <p class="hint">
          {plan.tee.label} ({plan.tee.known}). {b.header.hint}
        </p>
        {field('takeOff_m', b.header.G, plan.takeOff_m)}
        {field('socket_m', b.header.S, plan.socket_m)}
        {field('branchTakeOff_m', b.header.branch, plan.branchTakeOff_m)}
      </div>
      <dl>
        {!plan.possible && <p class="build-stop">{b.header.impossible}</p>}
        {facts.map(([word, v]) => (
          <div key={word}>
            <dt>{word}</dt>
            <dd>{v}</dd>
          </div>
        ))}
      </dl>
      <details class="marks">
        <summary>{b.header.marks}</summary>
        <ol>
          {plan.marks_m.map((m, i) => (
            <li key={m}>
              <span>{i + 1}</span> {say(m, m < 1 ? 'diameter' : 'length', u)}
            </li>
          ))}
        </ol>
      </details>
    </section>
  );
}

const headerOf = (values: BuildValues, drawing: BuildDrawing): HeaderPlan | undefined =>
  drawing.id.startsWith('header')
    ? values.headers.find((h) => drawing.title.split(/, for |; /).includes(h.name))
    : undefined;

/** Drawings chosen like sheets of a set. */
export function DrawingsView({ built }: { built: Built }) {
  const { drawings, values } = built;
  const shown = drawings.find((d) => d.id === drawingId.value) ?? drawings[0];
  if (shown === undefined) return null;
  const plan = headerOf(values, shown);
  return (
    <div class="plans">
      {narrow.value ? (
        <label class="plans-choice">
          <span class="away">{b.drawing.choose}</span>
          <select
            value={shown.id}
            onChange={(event) => {
              drawingId.value = event.currentTarget.value;
            }}
          >
            {drawings.map((d, i) => (
              <option key={d.id} value={d.id}>
                {i + 1} · {short(d)}
              </option>
            ))}
          </select>
        </label>
      ) : (
        <nav class="plans-list" aria-label={b.drawing.list}>
          <ol>
            {drawings.map((d, i) => (
              <li key={d.id}>
                <button
                  type="button"
                  aria-pressed={d === shown}
                  onClick={() => {
                    drawingId.value = d.id;
                  }}
                >
                  <span class="plans-number">{i + 1}</span>
                  <span>{short(d)}</span>
                </button>
              </li>
            ))}
          </ol>
        </nav>
      )}
      <figure class="plans-shown" key={shown.id}>
        <figcaption>
          <h2>{shown.title}</h2>
          <span class="plans-save">
            {(['svg', 'dxf'] as const).map((form) => (
              <button
                key={form}
                type="button"
                class="act act-quiet"
                aria-label={b.drawing.save(b.drawing[form], short(shown))}
                onClick={() => void saveDrawing(shown, form)}
              >
                {b.drawing[form]}
              </button>
            ))}
          </span>
        </figcaption>
        <Plan drawing={shown} name={short(shown)} />
        {plan !== undefined && <Bench plan={plan} />}
      </figure>
    </div>
  );
}
