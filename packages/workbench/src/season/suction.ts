import { waterDensity, waterHeatCapacity } from '@sunlap/engine/fluids/water';
import { leakLoss } from '@sunlap/engine/hydraulics/drain-leak';
import type { Project } from '@sunlap/project/schema/project';
import type { Say } from '../flow/say';
import type { Study } from './study';
import type { SeasonSuction, SeasonValues } from './values';

/** A sunny day's water near the floor is cooler than at the skimmer by about this [K]; judgement. */
const COLDER_K = 0.3;

/**
 * Suction choice: what a few tenths of a degree colder inlet water would bring in a year, against what a leak
 * would cost while each suction is open.
 */
export function suctionChoice(project: Project, study: Study, values: SeasonValues, say: Say): SeasonSuction {
  const { pool } = study;
  const perKelvin = study.year.collector.perKelvin_JK.reduce((a, b) => a + b, 0) / 3.6e6;
  const heat_kWh = COLDER_K * perKelvin;
  const warm = values.year.pool_C.with?.high ?? 26;
  const fill_C = project.season?.mains_C ?? 15;
  const level = project.pool.waterLevel_m ?? 0;
  const suctions = project.loop.suctions.map((s) => {
    const loss = leakLoss({ surface_m2: pool.surface_m2, automaticMakeUp: project.pool.automaticMakeUp }, [
      { id: s.id, depth_m: Math.min(pool.depth_m, Math.max(0, s.depth_m + level)), open: true },
    ]);
    return {
      id: s.id,
      name: s.name ?? s.id,
      depth_m: s.depth_m,
      leak_m3: loss.volume_m3,
      leakFall_m: loss.levelFall_m,
      reheat_kWh:
        (loss.volume_m3 * waterDensity(20) * waterHeatCapacity(20) * Math.max(0, warm - fill_C)) / 3.6e6,
      endless: loss.endless,
    };
  });
  const deepest = suctions.reduce((a, b) => (b.leak_m3 > a.leak_m3 ? b : a));
  const least = suctions.reduce((a, b) => (b.leak_m3 < a.leak_m3 ? b : a));
  const gain = `Water ${say(COLDER_K, 'temperatureDifference')} colder would bring ${say(heat_kWh * 3.6e6, 'energy')} more in a year.`;
  const cost =
    deepest === least
      ? `A leak while nobody is there pumps out ${say(deepest.leak_m3, 'volume')} through ${deepest.name}.`
      : `Drawn through ${deepest.name}, a leak while nobody is there pumps out ${say(deepest.leak_m3, 'volume')}, through ${least.name} alone ${say(least.leak_m3, 'volume')}; warming the fill again takes ${say(deepest.reheat_kWh * 3.6e6, 'energy')}.`;
  return { colder_K: COLDER_K, heat_kWh, suctions, saying: `${gain} ${cost}` };
}
