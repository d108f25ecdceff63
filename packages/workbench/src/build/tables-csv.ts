import Papa from 'papaparse';
import type { BuildValues } from './build';

const write = (rows: Record<string, unknown>[]): string =>
  `${Papa.unparse(rows, { newline: '\n', escapeFormulae: true })}\n`;

/** Shop list as CSV, one line for each part. */
export function partsCsv(values: BuildValues): string {
  return write(
    values.shop.map((l) => ({
      group: l.group,
      part: l.part,
      label: l.label,
      unit: l.unit,
      length_m: l.length_m ?? '',
      needed: l.needed,
      spares: l.spares,
      onHand: l.onHand,
      toBuy: l.toBuy,
      packs: l.packs.map((p) => `${p.count} x ${p.holds}`).join(' + '),
      price: l.price === null ? '' : l.price.toFixed(2),
      currency: values.currency,
      priceFrom: l.priceFrom,
      bought: l.bought ?? '',
      paid: l.paid ?? '',
    })),
  );
}

/** Every piece that is cut, and every bar that it is cut from, as CSV. */
export function cutsCsv(values: BuildValues): string {
  return write(
    values.cutting.flatMap((sheet) =>
      sheet.plan.bars.flatMap((bar, b) =>
        bar.cuts.map((c) => ({
          pipe: sheet.pipe,
          bar: b + 1,
          bars: bar.bars,
          stock_m: sheet.stocks[bar.stock].length_m,
          onHand: sheet.stocks[bar.stock].from === 'onHand' ? 'yes' : 'no',
          piece_m: sheet.pieces[c.piece].length_m,
          perBar: c.count,
          left_m: Number(bar.left_m.toFixed(5)),
          onSite: sheet.pieces[c.piece].onSite ? 'yes' : 'no',
          labels: sheet.pieces[c.piece].labels.join('; '),
        })),
      ),
    ),
  );
}
