import type { CutBars } from '@sunlap/engine/building/cutting-types';
import type { CutSheet } from '@sunlap/workbench/build/cutting';
import { KERF_M } from '@sunlap/workbench/build/options';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { setLength } from '../../edits/panel';
import { say } from '../../shape/quantity';
import { b } from '../../text/build';
import { t } from '../../text/catalogue';
import { o } from '../../text/own';
import { changeHow, HowFigure } from './HowFigure';
import { howOf } from './how';
import type { Built } from './protocol';
import { money } from './readouts';
import { StockLengths } from './StockLengths';
import { buildBusy, prove } from './state';

/** Lengths as a person cuts them. */
const cut = (v: number): string => say(v, v < 1 ? 'diameter' : 'length', units.value);

/** Share of its bar that a piece needs so that its length can stand in it. */
const ROOM = 0.13;

function Bar({ sheet, bar }: { sheet: CutSheet; bar: CutBars }) {
  const stock = sheet.stocks[bar.stock];
  const words = [
    ...bar.cuts.map((c) => `${c.count} × ${cut(sheet.pieces[c.piece].length_m)}`),
    ...(bar.left_m > 1e-3 ? [b.cuts.left(cut(bar.left_m))] : []),
  ].join(', ');
  const longest = Math.max(...sheet.stocks.map((s) => s.length_m));
  return (
    <li class="bar-row">
      <span class="bar-count">
        {b.cuts.bars(bar.bars, cut(stock.length_m))}
        {stock.from === 'onHand' && <span class="bar-hand"> {b.cuts.onHand}</span>}
      </span>
      <span class="bar-body" aria-hidden="true" style={{ width: `${(stock.length_m / longest) * 100}%` }}>
        {bar.cuts.flatMap((c) => {
          const { length_m } = sheet.pieces[c.piece];
          return Array.from({ length: c.count }, (_, i) => (
            // equal pieces of one bar have nothing but their place
            <span key={`${c.piece} ${i}`} class="bar-piece" style={{ flexGrow: length_m / stock.length_m }}>
              {length_m / stock.length_m > ROOM ? cut(length_m) : ''}
            </span>
          ));
        })}
        {bar.left_m > 1e-3 && <span class="bar-left" style={{ flexGrow: bar.left_m / stock.length_m }} />}
      </span>
      <span class="bar-words">{words}</span>
    </li>
  );
}

/** Gap or proof, and the way to a proof. */
function Proof({ sheet, built }: { sheet: CutSheet; built: Built }) {
  const { plan } = sheet;
  const write = (v: number): string => (sheet.priced ? money(v, built.values.currency) : cut(v));
  return (
    <div class="proof">
      <p class={plan.proven ? 'proof-done' : 'proof-gap'}>
        <span class="proof-mark" aria-hidden="true">
          {plan.proven ? '✓' : '≤'}
        </span>
        {plan.proven
          ? b.cuts.proven(write(plan.price))
          : b.cuts.gap(write(plan.price), write(plan.bound), write(plan.gap))}{' '}
        {!plan.proven && built.tried && b.cuts.stillGap}
        {plan.firstFitPrice > plan.price + 1e-9 && b.cuts.against(write(plan.firstFitPrice))}{' '}
        {!sheet.priced && b.cuts.byLength}
      </p>
      {!plan.proven && !built.tried && (
        <p class="proof-act">
          <button
            type="button"
            class="act"
            disabled={prove.value}
            onClick={() => {
              prove.value = true;
            }}
          >
            {prove.value && buildBusy() ? b.cuts.proving : b.cuts.prove}
          </button>
          <span class="hint">{b.cuts.proveHint}</span>
        </p>
      )}
    </div>
  );
}

function Sheet({ sheet, built }: { sheet: CutSheet; built: Built }) {
  const bars = sheet.plan.bars.reduce((n, bar) => n + bar.bars, 0);
  const pieces = sheet.pieces.reduce((n, p) => n + p.count, 0);
  return (
    <section class="cut-sheet" aria-label={sheet.label}>
      <header>
        <h2>{sheet.label}</h2>
        <p class="hint">
          {say(sheet.pipe_m, 'length', units.value)} · {b.cuts.sticks(bars)} ·{' '}
          {b.cuts.sawCuts(sheet.plan.sawCuts)}
        </p>
      </header>
      <Proof sheet={sheet} built={built} />
      {sheet.plan.tooLong.length > 0 && <p class="build-stop">{b.cuts.tooLong(sheet.plan.tooLong.length)}</p>}
      {sheet.plan.short.map(({ piece, count }) => (
        <p class="build-stop" key={piece}>
          {b.cuts.short(count, say(sheet.pieces[piece].length_m, 'length', units.value))}
        </p>
      ))}
      <ol class="bars">
        {sheet.plan.bars.map((bar, i) => (
          // ways of cutting have no name of their own
          <Bar key={`${bar.stock} ${i}`} sheet={sheet} bar={bar} />
        ))}
      </ol>
      <details class="pieces">
        <summary>{b.cuts.pieces(pieces)}</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">{b.cuts.count}</th>
              <th scope="col">{b.cuts.length}</th>
              <th scope="col">{b.cuts.where}</th>
            </tr>
          </thead>
          <tbody>
            {sheet.pieces.map((p) => (
              <tr key={p.length_m}>
                <td>{p.count}</td>
                <td>{cut(p.length_m)}</td>
                <td>
                  {p.labels.slice(0, 4).join('; ')}
                  {p.labels.length > 4 && ` +${p.labels.length - 4}`}
                  {p.onSite && <em> {b.cuts.onSite}</em>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
      <StockLengths sheet={sheet} currency={built.values.currency} />
    </section>
  );
}

/** Every bar with its cuts, and how far from the least money the plan can be. */
export function CutsView({ built }: { built: Built }) {
  const { store } = useApp();
  const { values } = built;
  const whole = values.wholeStick_m;
  const how = howOf(doc.value.project);
  return (
    <div class="build-page cuts">
      <header class="build-page-head cuts-head">
        <fieldset class="segments" aria-label={b.cuts.tool}>
          {(['ratchet', 'handSaw', 'chopSaw'] as const).map((tool) => (
            <button
              key={tool}
              type="button"
              aria-pressed={how.tool === tool}
              onClick={() => changeHow(store, o.steps.how(b.cuts.tool, b.cuts.tools[tool]), { tool })}
            >
              {b.cuts.tools[tool]}
            </button>
          ))}
        </fieldset>
        <div class="cuts-kerf">
          <HowFigure
            field="kerf_m"
            label={o.assume.kerf}
            kind="diameter"
            usual={KERF_M[how.tool]}
            min={0}
            max={0.02}
          />
        </div>
        {whole !== null && (
          <p class="cuts-whole">
            {b.cuts.wholeStick(say(whole, 'length', units.value))}{' '}
            <button
              type="button"
              class="act act-quiet"
              onClick={() => {
                const { doc: old } = store.get();
                const { project } = old;
                store.apply(t.steps.length(say(whole, 'length', units.value)), {
                  doc: {
                    ...old,
                    project: { ...project, collector: setLength(project.collector, null, whole) },
                  },
                  undo: 'commit',
                });
              }}
            >
              {b.cuts.snap(say(whole, 'length', units.value))}
            </button>
          </p>
        )}
      </header>
      {values.cutting.map((sheet) => (
        <Sheet key={sheet.pipe} sheet={sheet} built={built} />
      ))}
    </div>
  );
}
