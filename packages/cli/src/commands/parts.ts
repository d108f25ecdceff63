import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { BuildAnswer } from '@sunlap/workbench/build/build';
import { packsText, type ShopLine } from '@sunlap/workbench/build/shop';
import { partsCsv } from '@sunlap/workbench/build/tables-csv';
import { buildTable } from '../build-table';
import { shower } from '../show';
import { answers, type Column, table, wrap } from '../table';

/** The shop list as people read it. */
export function partsText(answer: BuildAnswer, system: UnitSystem, columns: number): string {
  const show = shower(system);
  const v = answer.result;
  const cells: { column: Column; of: (line: ShopLine) => string }[] = [
    { column: { title: '' }, of: (l) => l.group },
    {
      column: { title: 'what', wrap: true },
      of: (l) =>
        l.length_m === undefined ? nameOf(l) : `${l.label}, ${show(l.length_m, 'length')} ${l.unit}`,
    },
    { column: { title: 'needed', right: true }, of: (l) => String(l.needed) },
    { column: { title: 'spare', right: true }, of: (l) => (l.spares ? String(l.spares) : '') },
    { column: { title: 'on hand', right: true }, of: (l) => (l.onHand ? String(l.onHand) : '') },
    {
      column: { title: 'buy', right: true },
      of: (l) => (l.length_m === undefined ? `${l.toBuy} ${l.unit}` : String(l.toBuy)),
    },
    { column: { title: 'packs', wrap: true }, of: (l) => packsText(l) || cansText(l) },
    {
      column: { title: v.currency, right: true },
      of: (l) =>
        l.price === null ? 'no price' : `${l.price.toFixed(2)}${l.priceFrom === 'demo' ? ' *' : '  '}`,
    },
  ];
  // a column that is empty in every line only takes room
  const kept = cells.filter(({ of }) => v.shop.some((l) => of(l) !== ''));
  return [
    table(
      kept.map(({ column }) => column),
      v.shop.map((l) => kept.map(({ of }) => of(l))),
      columns,
    ),
    ...(v.shopTotal.demo > 0 ? ['* demo price, invented\n'] : []),
    answers([
      [
        'in all',
        `${v.shopTotal.price.toFixed(2)} ${v.currency}`,
        `${v.shopTotal.demo} lines at demo prices, ${v.shopTotal.unpriced} without a price`,
      ],
      ['pipe', show(v.counts.pipe_m, 'length')],
      ['cuts', String(v.counts.sawCuts)],
      ['glued joints', String(v.counts.gluedJoints)],
      ['clamped or threaded joints', String(v.counts.dryJoints)],
      ['weighs, filled', show(v.supports.filled_kg, 'mass')],
    ]),
    `${wrap(v.money.saying, columns)}\n`,
    `${wrap(`With ${v.money.inputs.join('; ')}.`, columns)}\n`,
  ].join('\n');
}

/** Name of a line; the cans that its label counts up go under packs. */
function nameOf(line: ShopLine): string {
  return line.packs.some((p) => p.part !== undefined) ? line.label.split(', ')[0] : line.label;
}

/** Cans by their size, the largest first: `1 × quart + 1 × half pint`. */
function cansText(line: ShopLine): string {
  return line.packs
    .flatMap((p) => (p.part === undefined ? [] : [{ ...p, size: p.part.replace(`${line.part}-`, '') }]))
    .sort((a, b) => b.holds - a.holds)
    .map((p) => `${p.count} × ${p.size.replace('-', ' ')}`)
    .join(' + ');
}

/** What to buy. */
export const partsCommand = buildTable({
  name: 'parts',
  about: 'every part in shop order, with packs, spares and prices',
  csv: partsCsv,
  text: partsText,
  money: true,
});
