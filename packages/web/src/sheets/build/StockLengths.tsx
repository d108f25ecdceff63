import type { CutSheet } from '@sunlap/workbench/build/cutting';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { QuantityInput } from '../../parts/QuantityInput';
import { say } from '../../shape/quantity';
import type { Store } from '../../store/store';
import { b } from '../../text/build';
import { o } from '../../text/own';
import { today } from './export';
import { Figure } from './Figure';
import { notSold, setOnHand, setSold, setStockLength } from './stock';

type Change = (project: Parameters<typeof setOnHand>[0]) => ReturnType<typeof setOnHand>;

function step(store: Store, name: string, change: Change): void {
  const { doc: now } = store.get();
  store.apply(name, { doc: { ...now, project: change(now.project) }, undo: 'commit' });
}

const cut = (v: number): string => say(v, v < 1 ? 'diameter' : 'length', units.value);

/** Pipe that lies about: used first. */
function OnHand({ sheet }: { sheet: CutSheet }) {
  const { store } = useApp();
  const [length_m, setLengthOf] = useState<number | null>(null);
  const [count, setCount] = useState<number | null>(1);
  const [turn, setTurn] = useState(0);
  const mine = (doc.value.project.stock?.pipes ?? []).filter((row) => row.pipe === sheet.pipe);
  const apply = (name: string, l: number, n: number): void =>
    step(store, b.cuts.step(name), (p) => setOnHand(p, sheet.pipe, l, n));
  return (
    <>
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
          placeholder={units.value === 'us' ? '4 ft' : '1.2 m'}
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
    </>
  );
}

/** Lengths in which the shop sells it, each with its price. */
function Sold({ sheet, currency }: { sheet: CutSheet; currency: string }) {
  const { store } = useApp();
  const [length_m, setLengthOf] = useState<number | null>(null);
  const [price, setPriceOf] = useState<number | null>(null);
  const [turn, setTurn] = useState(0);
  const { project } = doc.value;
  const gone = notSold(project, sheet.pipe);
  const stocks = sheet.stocks.filter((s) => s.from !== 'onHand' && !gone.includes(s.length_m));
  const lengths = [
    ...stocks.map((s) => ({ length_m: s.length_m, stock: s })),
    ...gone.map((l) => ({ length_m: l, stock: null })),
  ].sort((x, y) => x.length_m - y.length_m);
  const put = (l: number, v: number | null) =>
    step(store, b.shop.steps.price(`${sheet.label}, ${cut(l)}`), (p) =>
      setStockLength(p, sheet.pipe, l, v, today()),
    );
  return (
    <section class="sold" aria-label={`${sheet.label}: ${o.lengths.title}`}>
      <h3>{o.lengths.title}</h3>
      <p class="hint">{o.lengths.hint}</p>
      <ul>
        {lengths.map(({ length_m: l, stock }) => (
          <li key={l} class="sold-row">
            <label class="tick">
              <input
                type="checkbox"
                checked={stock !== null}
                aria-label={o.lengths.sold(cut(l))}
                onChange={() =>
                  step(store, stock === null ? o.steps.sold(cut(l)) : o.steps.notSold(cut(l)), (p) =>
                    setSold(p, sheet.pipe, l, stock === null, today()),
                  )
                }
              />
              {cut(l)}
            </label>
            {stock !== null && (
              <Figure
                label={o.lengths.price(cut(l), currency)}
                kind="money"
                value={stock.from === 'own' ? stock.shopPrice : null}
                min={0}
                max={1e6}
                placeholder={
                  stock.shopPrice === null
                    ? b.shop.noPrice
                    : `${stock.shopPrice.toFixed(2)} ${b.shop.demoTag}`
                }
                set={(v) => put(l, v)}
              />
            )}
          </li>
        ))}
      </ul>
      <div class="lengths-add" key={turn}>
        <QuantityInput
          label={o.lengths.length}
          kind="length"
          value={null}
          min={0.1}
          max={500}
          placeholder={units.value === 'us' ? '12 ft' : '4 m'}
          onValue={setLengthOf}
        />
        <QuantityInput
          label={o.lengths.cost(currency)}
          kind="money"
          value={null}
          min={0}
          max={1e6}
          onValue={setPriceOf}
        />
        <button
          type="button"
          class="act act-quiet"
          disabled={length_m === null || price === null}
          onClick={() => {
            if (length_m === null || price === null) return;
            put(length_m, price);
            setLengthOf(null);
            setPriceOf(null);
            setTurn(turn + 1);
          }}
        >
          {o.lengths.add}
        </button>
      </div>
    </section>
  );
}

/** Pipe on hand, and the lengths that the shop has. */
export function StockLengths({ sheet, currency }: { sheet: CutSheet; currency: string }) {
  return (
    <details class="lengths">
      <summary>{b.cuts.have}</summary>
      <OnHand sheet={sheet} />
      <Sold sheet={sheet} currency={currency} />
    </details>
  );
}
