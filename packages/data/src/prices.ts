import { findMaterial } from './materials';
import { inchesOf, inchSizeOf } from './nominalSizes';
import { findPipe, findPipeFamily, type Pipe } from './pipes';
import rules from './priceRules.json';
import table from './prices.json';
import type { Provenance } from './table';
import { readTable, withProvenance } from './table';

/** A demo price in US dollars of January 2026, invented and rounded. */
export interface DemoPrice extends Provenance {
  /** Pipe id, or part and size such as `tee-1/2`, `reducingTee-1x1/2`. */
  id: string;
  label?: string;
  per: 'stick' | 'coil' | 'each' | 'bag' | 'can' | 'kWh';
  price: number;
  /** Length of a stick or coil. */
  stock_m?: number;
  /** Pieces in a bag. */
  packOf?: number;
}

/** Day the demo prices stand for. */
export const DEMO_PRICES_AS_OF = '2026-01-15';

export const demoPrices: readonly DemoPrice[] = readTable<DemoPrice>(table.about, table.table);

/** Kinds of parts that have a price by their size. */
const KINDS: Readonly<Record<string, readonly number[]>> = rules.kinds;
const WAYS: Readonly<Record<string, number>> = rules.ways;
const ALONE: Readonly<Record<string, readonly (number | string)[]>> = rules.alone;

/**
 * Every way a part or pipe is sold: its own rows; else those of the like inch size; else by its kind and size, a pipe by
 * the mass of its plastic. Empty for what nobody knows.
 *
 * @example demoPricesOf('union-50')[0].price // 8, as the 1-1/2 in one
 */
export function demoPricesOf(id: string): readonly DemoPrice[] {
  const own = demoPrices.filter((row) => row.id === id);
  if (own.length > 0) return own;
  const pipe = findPipe(id);
  if (pipe) return pipePrices(pipe);
  const like = inchPart(id);
  const alike = like === id ? [] : demoPrices.filter((row) => row.id === like);
  return alike.length > 0 ? alike.map((row) => ({ ...row, id })) : partPrice(id);
}

/** `reducingTee-50x20` → `reducingTee-1-1/2x1/2`. */
function inchPart(id: string): string {
  const match = /^([A-Za-z0-9]+?)-(\d+)(?:x(\d+))?$/.exec(id);
  if (!match) return id;
  const [, kind, a, b] = match;
  const first = inchSizeOf(a) ?? a;
  return b === undefined ? `${kind}-${first}` : `${kind}-${first}x${inchSizeOf(b) ?? b}`;
}

const each = (id: string, price: number): DemoPrice =>
  withProvenance<DemoPrice>(rules.about, { id, per: 'each', price });

/** `cpvc-elbow90-3/4`, `barbTee-1x1/2`: way of joining, kind, sizes. */
function partPrice(id: string): DemoPrice[] {
  const [word] = id.split('-');
  if (Object.hasOwn(ALONE, word)) {
    // a member's name ends in its length
    const length_m = word === 'member' ? Number(id.slice(word.length + 1)) : 1;
    return [each(id, Math.round(100 * Number(ALONE[word][0]) * length_m) / 100)];
  }
  const match = /^(?:(cpvc|barb|push|sch80)-?)?([A-Za-z][A-Za-z0-9]*?)-(\d.*)$/.exec(id);
  if (!match) return [];
  const [, way, rest, sizes] = Object.hasOwn(KINDS, word)
    ? [id, undefined, word, id.slice(word.length + 1)]
    : match;
  const reducing = sizes.includes('x');
  const kind = rest[0].toLowerCase() + rest.slice(1);
  const row = KINDS[kind === 'tee' && reducing ? 'reducingTee' : kind];
  if (row === undefined) return [];
  const inches = sizes.split('x').map((s) => inchesOf(inchSizeOf(s) ?? s));
  const largest = Math.max(...inches.filter((v) => v > 0));
  const at = rules.sizes.findIndex((s) => inchesOf(s) >= largest - 1e-9);
  const price = row[at < 0 ? row.length - 1 : at] * (way === undefined ? 1 : WAYS[way]);
  return [each(id, Math.round(price * 10) / 10)];
}

/** Lengths in which a pipe is usually sold [m]; common practice. */
export function usualLengths(pipe: Pipe): readonly { length_m: number; per: 'stick' | 'coil' }[] {
  const coiled = pipe.material === 'HDPE' || pipe.material === 'LDPE' || pipe.material === 'PEX';
  if (coiled) {
    const metric = pipe.family === 'pe-irrigation' || pipe.family.startsWith('pe100');
    return [{ length_m: metric ? 50 : 30.48, per: 'coil' }];
  }
  const metric = findPipeFamily(pipe.family)?.fittings === 'metric';
  return (metric ? [3, 5] : [3.048, 6.096]).map((length_m) => ({ length_m, per: 'stick' }));
}

function pipePrices(pipe: Pipe): DemoPrice[] {
  const area = (Math.PI / 4) * (pipe.od_m ** 2 - (pipe.od_m - 2 * pipe.wall_m) ** 2);
  const perMetre = area * (findMaterial(pipe.material)?.density_kgm3 ?? 1400) * rules.pipe.perKg;
  return usualLengths(pipe).map(({ length_m, per }, i) => {
    const price = Math.max(0.5, Math.round(2 * perMetre * length_m * (i > 0 ? rules.pipe.longer : 1)) / 2);
    return withProvenance<DemoPrice>(rules.about, { id: pipe.id, per, price, stock_m: length_m });
  });
}
