import { SHOP_ORDER, type ShopGroup, type ShopLine, type ShopPack } from '@sunlap/workbench/build/shop';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { Cautions } from '../../parts/Cautions';
import { say } from '../../shape/quantity';
import type { Store } from '../../store/store';
import { b } from '../../text/build';
import { o } from '../../text/own';
import { today } from './export';
import { Figure } from './Figure';
import { HowBuilt } from './HowBuilt';
import type { Built } from './protocol';
import { money } from './readouts';
import { setBought, setPrice } from './shop-edits';
import { partsOnHand, setPartsOnHand } from './stock';

type Changed = (project: Parameters<typeof setBought>[0]) => Parameters<typeof setBought>[0];

function step(store: Store, name: string, change: Changed): void {
  const { doc } = store.get();
  store.apply(name, { doc: { ...doc, project: change(doc.project) }, undo: 'commit' });
}

/** What to ask for at the counter. */
function amount(line: ShopLine, system: ReturnType<typeof units.peek>): string {
  const [one, many] = b.shop.unit[line.unit] ?? [line.unit, line.unit];
  const word = line.toBuy === 1 ? one : many;
  const length = line.length_m === undefined ? '' : b.shop.of(say(line.length_m, 'length', system));
  return [line.toBuy.toLocaleString('en', { useGrouping: 'min2' }), word, length].filter(Boolean).join(' ');
}

function PriceField({
  line,
  pack,
  label,
}: {
  line: ShopLine;
  pack: Pick<ShopPack, 'holds' | 'part' | 'price' | 'from'> | null;
  label: string;
}) {
  const { store } = useApp();
  const of = pack ?? { holds: 1 };
  return (
    <Figure
      label={label}
      kind="money"
      value={pack?.from === 'own' ? pack.price : null}
      min={0}
      max={1e6}
      placeholder={
        pack === null ? '' : `${pack.price.toFixed(2)} ${pack.from === 'demo' ? b.shop.demoTag : ''}`
      }
      set={(v) => step(store, b.shop.steps.price(line.label), (p) => setPrice(p, line, of, v, today()))}
    />
  );
}

/** Groups of which some may lie in the shed already; pipe is told by its lengths, see the cutting plan. */
const HELD: ReadonlySet<ShopGroup> = new Set(['fittings', 'valves', 'supports', 'other']);

const priceLabel = (pack: ShopPack, one: boolean): string => {
  const word = (pack as { word?: string }).word;
  if (word !== undefined) return b.shop.pricePack(word);
  return pack.holds > 1 || !one ? b.shop.pricePack(b.shop.packOf(pack.holds)) : b.shop.price;
};

function LineFields({ line }: { line: ShopLine }) {
  const { store } = useApp();
  return (
    <div class="shop-fields">
      {line.packs.length === 0 ? (
        <PriceField line={line} pack={null} label={b.shop.price} />
      ) : (
        line.packs.map((pack) => (
          <PriceField
            key={pack.part ?? pack.holds}
            line={line}
            pack={pack}
            label={priceLabel(pack, line.packs.length === 1)}
          />
        ))
      )}
      <Figure
        label={b.shop.bought}
        kind="count"
        value={line.bought}
        min={0}
        max={100_000}
        placeholder={`0 / ${line.toBuy}`}
        set={(v) =>
          step(store, b.shop.steps.bought(line.label), (p) => setBought(p, line, { bought: v }, today()))
        }
      />
      <Figure
        label={b.shop.paidAll}
        kind="money"
        value={line.paid}
        min={0}
        max={1e7}
        placeholder={line.price === null ? '' : line.price.toFixed(2)}
        set={(v) =>
          step(store, b.shop.steps.paid(line.label), (p) => setBought(p, line, { paid: v }, today()))
        }
      />
      {HELD.has(line.group) && (
        <Figure
          label={o.shop.onHand}
          kind="count"
          value={partsOnHand(doc.value.project, line.part)}
          min={0}
          max={100_000}
          placeholder="0"
          set={(v) =>
            step(store, o.steps.partsOnHand(line.label, String(v ?? 0)), (p) =>
              setPartsOnHand(p, line.part, v),
            )
          }
        />
      )}
      <p class="hint">{b.shop.back}</p>
    </div>
  );
}

function Line({ line, currency }: { line: ShopLine; currency: string }) {
  const { store } = useApp();
  const [open, setOpen] = useState(false);
  const u = units.value;
  const done = line.toBuy === 0 || (line.bought ?? 0) >= line.toBuy;
  const some = !done && (line.bought ?? 0) > 0;
  const packs = line.packs.filter((p) => p.holds > 1 && p.part === undefined);
  const shown = line.paid ?? line.price;
  const small = [
    // a line that is bought as it is needed says so by its count
    line.toBuy === line.needed ? '' : b.shop.needs(line.needed, line.spares, line.onHand),
    ...packs.map((p) => b.shop.packs(p.count, p.holds)),
    line.left > 0 ? b.shop.left(line.left) : '',
    some ? b.shop.boughtSome(line.bought ?? 0, line.toBuy) : '',
  ].filter(Boolean);
  return (
    <li class={`shop-line ${done ? 'shop-done' : ''}`}>
      <label class="shop-tick">
        <input
          type="checkbox"
          checked={done}
          disabled={line.toBuy === 0}
          onChange={() =>
            step(store, done ? b.shop.steps.notBought(line.label) : b.shop.steps.bought(line.label), (p) =>
              setBought(p, line, { bought: done ? null : line.toBuy }, today()),
            )
          }
        />
        <span class="shop-words">
          <span class="shop-amount">{line.toBuy === 0 ? '0' : amount(line, u)}</span>{' '}
          <span class="shop-what">{line.label}</span>
        </span>
      </label>
      {(line.toBuy === 0 || small.length > 0) && (
        <span class="shop-small">{line.toBuy === 0 ? b.shop.nothing : small.join(' · ')}</span>
      )}
      <span class="shop-price">
        {shown === null ? <span class="shop-none">{b.shop.noPrice}</span> : money(shown, currency)}
        {line.paid === null && line.priceFrom === 'demo' && <span class="shop-demo"> {b.shop.demoTag}</span>}
      </span>
      <button
        type="button"
        class="quiet shop-edit"
        aria-expanded={open}
        aria-label={b.shop.edit(
          line.label + (line.length_m === undefined ? '' : ` ${say(line.length_m, 'length', u)}`),
        )}
        onClick={() => setOpen(!open)}
      >
        {b.shop.change}
      </button>
      {open && <LineFields line={line} />}
    </li>
  );
}

/** Parts on hand that this design does not need: kept, and taken away here. */
function Elsewhere({ lines }: { lines: readonly ShopLine[] }) {
  const { store } = useApp();
  const needed = new Set(lines.map((l) => l.part));
  const rows = (doc.value.project.stock?.parts ?? []).filter((row) => !needed.has(row.part));
  if (rows.length === 0) return null;
  return (
    <section class="shop-group" aria-labelledby="shop-elsewhere">
      <h3 id="shop-elsewhere">{o.shop.other}</h3>
      <ul>
        {rows.map((row) => (
          <li key={row.part} class="shop-elsewhere">
            {row.count} × {row.part}{' '}
            <button
              type="button"
              class="quiet"
              onClick={() =>
                step(store, o.steps.partsOnHand(row.part, '0'), (p) => setPartsOnHand(p, row.part, null))
              }
            >
              {o.shop.takeAway(row.part)}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What to buy, in the order of the shop; ticked as one goes. */
export function ShopView({ built }: { built: Built }) {
  const { shop, shopTotal: total, currency } = built.values;
  const lines = shop.filter((l) => l.needed > 0);
  const done = lines.filter((l) => l.toBuy === 0 || (l.bought ?? 0) >= l.toBuy).length;
  return (
    <div class="build-page shop">
      <header class="build-page-head">
        <h2>{b.shop.title}</h2>
        <p class="shop-progress" aria-live="polite">
          <progress value={done} max={lines.length} aria-label={b.shop.progress(done, lines.length)} />
          {b.shop.progress(done, lines.length)} · {b.shop.open(money(total.open, currency))}
          {total.paid > 0 && ` · ${b.shop.paid(money(total.paid, currency))}`}
        </p>
        {total.demo > 0 && <p class="hint">{b.shop.demo}</p>}
      </header>
      <div class="shop-groups">
        {SHOP_ORDER.map((group) => {
          const mine = lines.filter((l) => l.group === group);
          return mine.length === 0 ? null : (
            <section key={group} class="shop-group" aria-labelledby={`shop-${group}`}>
              <h3 id={`shop-${group}`}>{b.shop.groups[group]}</h3>
              <ul>
                {mine.map((line) => (
                  <Line key={line.id} line={line} currency={currency} />
                ))}
              </ul>
            </section>
          );
        })}
        <Elsewhere lines={lines} />
        <HowBuilt />
        <Cautions hand="pipe" />
      </div>
    </div>
  );
}
