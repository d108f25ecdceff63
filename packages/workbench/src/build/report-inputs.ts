import { findExposure } from '@sunlap/data/exposure';
import { findPipe } from '@sunlap/data/pipes';
import { findPump } from '@sunlap/data/pumps';
import type { Bank } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import type { QuantityKind } from '@sunlap/project/units/kinds';
import { poolSize } from '../assembly/pool-size';
import { sayIn } from '../flow/say';
import { collectorExposure } from '../heat/moment';
import type { HeatAnswer, Interval } from '../results';
import { poolExposure } from '../season/assumed';
import { block, facts, table } from './report-page';

const BAND_WORD: Readonly<Record<string, readonly [string, QuantityKind]>> = {
  flow_m3s: ['flow through the pump', 'flow'],
  collectorFlow_m3s: ['flow through the collector', 'flow'],
  pumpHead_m: ['head of the pump', 'head'],
  headLoss_m: ['head lost in the collector', 'head'],
  heat_W: ['heat into the pool', 'heatRate'],
  rise_K: ['rise from inlet to outlet', 'temperatureDifference'],
  outlet_C: ['water from the collector', 'temperature'],
};
const DOUBT_WORD: Readonly<Record<string, string>> = {
  exposure: 'wind that reaches the panel',
  insideFilm: 'the film inside the tubes',
  skyModel: 'how the sky’s light is spread',
  skyLongWave: 'how cold the sky is',
  convection: 'loss to the wind',
  sky: 'the sky in words',
  air: 'the air’s temperature',
  dew: 'the dew point',
  wind: 'the wind’s speed',
  water: 'the water’s temperature',
};

/** A band in the person's words and units; one by its cause is heat with the doubt that makes it. */
function bandRow(name: string, band: Interval, say: ReturnType<typeof sayIn>): string[][] {
  const [whole, cause] = name.split('.');
  const known = BAND_WORD[whole];
  if (!known) return [];
  const [word, kind] = known;
  const text = cause === undefined ? word : `${word}, by doubt about ${DOUBT_WORD[cause] ?? cause}`;
  return [[text, say(band.low, kind), say(band.high, kind)]];
}

/** Passes of the same pipe and length as one line: how many tubes, of what, how long. */
function tubesOf(project: Project, say: ReturnType<typeof sayIn>): string {
  const like = new Map<string, number>();
  const banks: readonly Bank[] = project.collector.sections.flatMap((s) => s.banks);
  for (const bank of banks) {
    const words =
      bank.kind === 'rated'
        ? 'rated absorbers'
        : `${bank.kind === 'coil' ? 'coils' : 'tubes'} of ${findPipe(bank.pipe)?.label ?? bank.pipe}, ${say(bank.length_m, 'length')}`;
    like.set(words, (like.get(words) ?? 0) + bank.count);
  }
  return [...like].map(([words, count]) => `${count} ${words}`).join('; ');
}

/** What the weather of a place does to the wind, as it is counted with. */
function exposureWords(
  where: 'collector' | 'pool',
  setting: string,
  of: { ratio: number; low: number; high: number },
): string {
  return `${findExposure(where, setting)?.label ?? setting}: ${of.ratio.toFixed(2)} of the wind at 10 m (${of.low.toFixed(2)} to ${of.high.toFixed(2)})`;
}

/** What went in, and the intervals of what came out. */
export function inputsBlock(project: Project, moments: readonly HeatAnswer[]): string {
  const say = sayIn(project.units);
  const { collector, loop, pool, site } = project;
  const { placement, supports, surface } = collector;
  const size = poolSize(pool);
  const { curve } = loop.pump;
  const m = moments[Math.floor(moments.length / 2)];
  const bands = Object.entries({ ...m?.flow.band, ...m?.band }).flatMap(([name, b]) => bandRow(name, b, say));
  return block(
    'Inputs and bands',
    facts([
      ['place', site.place],
      ['latitude', `${site.latitude_deg.toFixed(2)}°`],
      ['panel looks to', `${placement.facing_deg.toFixed(0)}°`],
      ['tilt', `${placement.tilt_deg.toFixed(1)}°`],
      ['lowest point over the pool', say(placement.lowestHeight_m, 'length')],
      ['a support every', say(supports.spacing_m, 'length')],
      [
        'pool',
        `${say(size.surface_m2, 'area')}, ${say(size.depth_m, 'length')} deep, ${say(size.volume_m3, 'volume')}`,
      ],
      ['wish', say(pool.wish_C, 'temperature')],
      ['tubes', tubesOf(project, say)],
      [
        'surface',
        `takes ${Math.round(100 * surface.absorptance)} % of the sun, gives off ${Math.round(100 * surface.emittance)} % of what a black one would`,
      ],
      ['pump', curve.kind === 'shelf' ? (findPump(curve.shelf)?.label ?? curve.shelf) : 'its own curve'],
      ['not known', project.unsure?.join(', ') || '—'],
      [
        'wind at the tubes',
        exposureWords('collector', site.exposure.collector.setting, collectorExposure(project)),
      ],
      ['wind at the pool', exposureWords('pool', site.exposure.pool.setting, poolExposure(project))],
    ]),
    table(
      `Bands at ${m?.result.moment.at.slice(11) ?? ''}: least and most over the rival models and doubts`,
      [{ title: 'quantity' }, { title: 'least', right: true }, { title: 'most', right: true }],
      bands,
    ),
  );
}
