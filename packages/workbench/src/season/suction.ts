import type { Project } from '@sunlap/project/schema/project';
import { leakThrough, refillHeat_J } from '../check/leak';
import type { Say } from '../flow/say';
import { mainsOf, meanAir_C } from './drivers';
import type { Study } from './study';
import type { SeasonSuction, SeasonValues } from './values';

/** A sunny day's water near the floor is cooler than at the skimmer by about this [K]; judgement. */
const COLDER_K = 0.3;

/**
 * Suction choice: what a few tenths of a degree colder inlet water would bring in a year, against what a leak
 * would cost while each suction is open.
 */
export function suctionChoice(project: Project, study: Study, values: SeasonValues, say: Say): SeasonSuction {
  const perKelvin = study.year.collector.perKelvin_JK.reduce((a, b) => a + b, 0) / 3.6e6;
  const heat_kWh = COLDER_K * perKelvin;
  const warm = values.year.pool_C.with?.high ?? 26;
  const fill_C = mainsOf(project.season, meanAir_C(study.weather.series));
  const suctions = project.loop.suctions.map((s, place) => {
    const loss = leakThrough(project, (i) => i === place);
    return {
      id: s.id,
      name: s.name ?? s.id,
      depth_m: s.depth_m,
      leak_m3: loss.volume_m3,
      leakFall_m: loss.levelFall_m,
      reheat_kWh: refillHeat_J(loss.volume_m3, warm, fill_C) / 3.6e6,
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
