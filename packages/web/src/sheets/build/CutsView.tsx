import type { CutBars } from '@sunlap/engine/building/cutting-types';
import type { CutSheet } from '@sunlap/workbench/build/cutting';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { setLength } from '../../edits/panel';
import { QuantityInput } from '../../parts/QuantityInput';
import { say } from '../../shape/quantity';
import { b } from '../../text/build';
import { t } from '../../text/catalogue';
import { setOnHand, setStockLength } from './edits';
import { today } from './export';
import { Figure } from './Figure';
import type { Built } from './protocol';
import { money } from './readouts';
import { buildBusy, how, prove, setHow } from './state';

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

/** Pipe that lies about, and the lengths that the shop has. */
function Lengths({ sheet, currency }: { sheet: CutSheet; currency: string }) {
  const { store } = useApp();
  const [length_m, setLengthOf] = useState<number | null>(null);
  const [count, setCount] = useState<number | null>(1);
  const [turn, setTurn] = useState(0);
  const u = units.value;
  const mine = (doc.value.project.stock?.pipes ?? []).filter((row) => row.pipe === sheet.pipe);
  const apply = (name: string, l: number, n: number): void => {
    const { doc: old } = store.get();
    store.apply(b.cuts.step(name), {
      doc: { ...old, project: setOnHand(old.project, sheet.pipe, l, n) },
      undo: 'commit',
    });
  };
  return (
    <details class="lengths">
      <summary>{b.cuts.have}</summary>
      <p class="hint">{b.cuts.haveHint}</p>
      {mine.length > 0 && (
        <ul>
          {mine.map((row) => (
            <li key={row.length_m}>
              {row.count} × {cut(row.length_m)}{' '}
              <button type="button" class="quiet" onClick={() => apply(cut(row.length_m), row.length_m, 0)}>
                {b.cuts.remove(cut(row.length_m))}
              </button>
            </li>
          ))}
        </ul>
      )}
      <div class="lengths-add" key={turn}>
        <QuantityInput
          label={b.cuts.haveLength}
          kind="length"
          value={null}
          min={0.02}
          max={500}
          placeholder={say(1.2, 'length', u)}
          onValue={setLengthOf}
        />
        <QuantityInput
          label={b.cuts.haveCount}
          kind="count"
          value={count}
          min={1}
          max={500}
          onValue={(v) => setCount(Math.round(v))}
        />
        <button
          type="button"
          class="act act-quiet"
          disabled={length_m === null || count === null}
          onClick={() => {
            if (length_m === null || count === null) return;
            apply(`${count} × ${cut(length_m)}`, length_m, count);
            setLengthOf(null);
            setCount(1);
            setTurn(turn + 1);
          }}
        >
          {b.cuts.add}
        </button>
      </div>
      <div class="lengths-sold">
        {sheet.stocks
          .filter((s) => s.from !== 'onHand')
          .map((s) => (
            <Figure
              key={s.length_m}
              label={`${b.cuts.soldPrice(cut(s.length_m))}, ${currency}`}
              kind="money"
              value={s.from === 'own' ? s.shopPrice : null}
              min={0}
              max={1e6}
              placeholder={
                s.shopPrice === null ? b.shop.noPrice : `${s.shopPrice.toFixed(2)} ${b.shop.demoTag}`
              }
              set={(v) => {
                const { doc: old } = store.get();
                store.apply(b.shop.steps.price(`${sheet.label}, ${cut(s.length_m)}`), {
                  doc: { ...old, project: setStockLength(old.project, sheet.pipe, s.length_m, v, today()) },
                  undo: 'commit',
                });
              }}
            />
          ))}
      </div>
      <p class="hint">{b.shop.onlyOwn}</p>
    </details>
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
      <Lengths sheet={sheet} currency={built.values.currency} />
    </section>
  );
}

/** Every bar with its cuts, and how far from the least money the plan can be. */
export function CutsView({ built }: { built: Built }) {
  const { store } = useApp();
  const { values } = built;
  const whole = values.wholeStick_m;
  return (
    <div class="build-page cuts">
      <header class="build-page-head cuts-head">
        <fieldset class="segments" aria-label={b.cuts.tool}>
          {(['ratchet', 'handSaw', 'chopSaw'] as const).map((tool) => (
            <button
              key={tool}
              type="button"
              aria-pressed={how.value.tool === tool}
              onClick={() => setHow({ tool })}
            >
              {b.cuts.tools[tool]}
            </button>
          ))}
        </fieldset>
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
