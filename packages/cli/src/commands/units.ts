import { formatQuantity } from '@sunlap/project/units/format';
import { KINDS, type QuantityKind, unitsOf } from '@sunlap/project/units/kinds';
import { parseQuantity } from '@sunlap/project/units/parse';
import type { Command } from '../command';
import { EXIT, WrongInput } from '../io';
import { table } from '../table';

const kinds = Object.keys(KINDS) as QuantityKind[];

/** What a text means as a quantity, or what can be typed. */
export const unitsCommand: Command = {
  name: 'units',
  usage: 'units ["42 ft 6 in"] [--kind KIND] [--json]',
  about: 'what can be typed as a quantity, and how a text is read',
  options: {
    kind: { value: 'KIND', about: 'read the text as this kind only' },
    json: { about: 'as JSON' },
  },
  words: [0, 1],
  async run(args, io) {
    const asked = args.text('kind');
    if (asked !== undefined && !kinds.includes(asked as QuantityKind)) {
      throw new WrongInput(`--kind ${asked}: expected one of ${kinds.join(', ')}`);
    }
    const chosen = asked === undefined ? kinds : [asked as QuantityKind];
    const text = args.words[0];
    if (text === undefined) {
      const rows = chosen.map((kind) => ({
        kind,
        examples: KINDS[kind].examples,
        units: unitsOf(kind).map((unit) => unit.id),
        suffix: KINDS[kind].suffix,
      }));
      if (args.on('json')) io.out(`${JSON.stringify({ result: rows }, null, 2)}\n`);
      else {
        io.out(
          table(
            [{ title: 'kind' }, { title: 'US' }, { title: 'metric' }, { title: 'units understood' }],
            rows.map((row) => [row.kind, row.examples.us, row.examples.metric, row.units.join('  ')]),
          ),
        );
      }
      return EXIT.fine;
    }
    const readings = chosen.flatMap((kind) => {
      const read = parseQuantity(text, kind);
      return read.ok ? [{ kind, ...read }] : [];
    });
    if (readings.length === 0) {
      const first = parseQuantity(text, chosen.length === 1 ? chosen[0] : 'length');
      throw new WrongInput(`"${text}": ${first.ok ? '' : first.message}`);
    }
    if (args.on('json')) io.out(`${JSON.stringify({ result: readings }, null, 2)}\n`);
    else {
      io.out(
        table(
          [
            { title: 'as' },
            { title: 'SI', right: true },
            { title: 'US', right: true },
            { title: 'metric', right: true },
          ],
          readings.map((reading) => [
            reading.kind,
            `${Number(reading.value.toPrecision(7))} ${KINDS[reading.kind].suffix}`,
            formatQuantity(reading.value, reading.kind, 'us').text,
            formatQuantity(reading.value, reading.kind, 'metric').text,
          ]),
        ),
      );
    }
    return EXIT.fine;
  },
};
