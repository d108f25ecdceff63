import { findMaterial } from '@sunlap/data/materials';
import { findScald } from '@sunlap/data/scald';
import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { Say } from '../flow/say';
import type { HeatValues } from '../results';
import type { HeatBand } from './heat-band';
import { heatCost } from './heat-costing';
import type { SolvedHeat } from './solve-heat';

/** Water that scalds a child within minutes [°C]: 49 °C takes eight (published scald times). */
export const SCALD_C = 49;
/** Where nothing else is known of a pipe's material [°C]. */
const PVC_MOST_C = 60;
/** Rise from which a person may think the panel does well because it is hot [K]. */
const HOT_RETURN_K = 4;
/** More flow that the hot-return notice tries. */
const MORE_FLOW = 1.5;

/** In the person's words, where a doubt comes from. */
const DOUBT: Record<string, string> = {
  exposure: 'how much wind reaches the tubes',
  insideFilm: 'the water film inside slow tubes',
  skyModel: 'how the sky’s light is spread',
  skyLongWave: 'how cold the sky is',
  convection: 'how wind cools a row on a backing',
  sky: 'the sky, said in a word',
  air: 'the air temperature, which was assumed',
  dew: 'the dew point, which was assumed',
  wind: 'the wind, which was assumed',
  water: 'the pool’s temperature, which was assumed',
};

export function heatNotices(
  project: Project,
  solved: SolvedHeat,
  values: HeatValues,
  band: HeatBand,
  say: Say,
): Notice[] {
  return [
    ...hotNotices(project, solved, values, say),
    ...frozenNotices(solved),
    ...slugNotices(values, say),
    ...coolingNotices(values, say),
    ...hotReturnNotices(solved, values, say),
    ...shadeNotices(values, say),
    ...swayNotices(solved),
    ...doubtNotices(values, band, say),
  ];
}

/** Dry tubes against the most their material bears. */
export function hotNotices(
  project: Project,
  solved: Pick<SolvedHeat, 'flow'>,
  values: Pick<HeatValues, 'dryStanding_C'>,
  say: Say,
): Notice[] {
  let most = Infinity;
  let name = '';
  for (const bank of solved.flow.assembled.geometry.banks) {
    for (const size of [bank.size, bank.supply?.size, bank.gather?.size]) {
      if (!size) continue;
      const limit = findMaterial(size.material)?.most_C ?? PVC_MOST_C;
      if (limit < most) {
        most = limit;
        name = size.name;
      }
    }
  }
  if (!(values.dryStanding_C > most)) return [];
  const lying = project.collector.backing.kind !== 'none';
  return [
    {
      code: 'dry-too-hot',
      severity: 'damage',
      path: '/collector',
      message: `Dry in this sun and calm air the tubes reach ${say(values.dryStanding_C, 'temperature')}; ${name} bears ${say(most, 'temperature')}. It softens, sags and loses its pressure rating.`,
      remedy: `Keep water in it or moving on sunny days; when dry leave it vented and without pressure, on close supports.${lying ? ' Off the backing it stays cooler.' : ''}`,
    },
  ];
}

/** How long water of a temperature takes to burn, by the published row at or above it. */
export function scaldWords(water_C: number): string {
  const row = findScald(water_C);
  if (row === undefined) return '';
  const { secondDegree_s: s } = row;
  const time = s < 100 ? `${s} seconds` : `${Math.round(s / 60)} minutes`;
  return `Water that hot burns an adult’s skin in about ${time}; children sooner.`;
}

/** Water that would be colder than ice. */
export function frozenNotices({ panel }: { readonly panel: Pick<SolvedHeat['panel'], 'frozen'> }): Notice[] {
  if (!panel.frozen) return [];
  return [
    {
      code: 'water-freezes',
      severity: 'damage',
      path: '/collector',
      message:
        'In this air and sky the water freezes in the collector. Temperatures below freezing stand for the heat that is missing, and ice splits pipe.',
      remedy: 'Shut the collector off and drain it before such nights.',
    },
  ];
}

function slugNotices(values: HeatValues, say: Say): Notice[] {
  const slug = values.firstSlug;
  if (!(slug.temperature_C >= SCALD_C)) return [];
  return [
    {
      code: 'first-water-scalds',
      severity: 'safety',
      path: '/collector',
      message: `After an hour without flow the first ${say(slug.volume_m3, 'volume')} come at ${say(slug.temperature_C, 'temperature')}, for about ${Math.max(1, Math.round(slug.seconds))} s. ${scaldWords(slug.temperature_C)}`,
      remedy:
        'Keep everyone away from the outlets when the flow is turned to the collector on a sunny day, and open the valve slowly.',
    },
  ];
}

function coolingNotices(values: HeatValues, say: Say): Notice[] {
  if (!(values.heat_W < -20)) return [];
  return [
    {
      code: 'collector-cools',
      severity: 'heat',
      path: '/loop/bypass',
      message: `At this moment the collector takes ${say(-values.heat_W, 'heatRate')} out of the pool.`,
      remedy: 'Send the water past it until the sun is higher or the air warmer.',
    },
  ];
}

function hotReturnNotices(solved: SolvedHeat, values: HeatValues, say: Say): Notice[] {
  if (!(values.rise_K > HOT_RETURN_K)) return [];
  const flows = solved.elementFlow_kgs.map((m) => m * MORE_FLOW);
  const more = solvePanel(solved.layout.panel, flows, values.inlet_C, solved.conditions.panel, {
    laminarGain: DEFAULT_HEAT_OPTIONS.laminarGain,
    tolerance_K: 1e-5,
  });
  const gain = more.heat_W - values.heat_W;
  return [
    {
      ...heatCost(Math.max(0, gain), values.heat_W, 'Costs', say),
      code: 'hot-return-is-not-more-heat',
      severity: gain > 0.03 * Math.abs(values.heat_W) ? 'heat' : 'info',
      path: '/loop/pump/speed',
      message: `The water comes back ${say(values.rise_K, 'temperatureDifference')} warmer. A hotter return is not more heat: with half as much flow again it would be ${say((more.outlet_C ?? values.inlet_C) - values.inlet_C, 'temperatureDifference')} warmer and bring ${say(gain, 'heatRate')} more.`,
      remedy: 'Send more water through the collector.',
    },
  ];
}

/** Less of the heat than this, and of it, is not worth a word [–], [W]. */
const SHADE_SHARE = 0.01;
const SHADE_W = 50;

function shadeNotices({ shade, heat_W }: HeatValues, say: Say): Notice[] {
  if (!shade || shade.cost_W === null) return [];
  const { cost_W, sunlit, worst } = shade;
  if (!(cost_W > SHADE_W && cost_W > SHADE_SHARE * (Math.abs(heat_W) + cost_W))) return [];
  const what = worst ? `, most of it behind ${worst}` : '';
  return [
    {
      ...heatCost(cost_W, Math.max(1, heat_W + cost_W), 'Costs', say),
      code: 'shade-costs-heat',
      severity: 'heat',
      path: '/yard/obstacles',
      message: `At this moment ${Math.round(100 * sunlit)} % of the direct sun reaches the tubes${what}: in the open they would bring ${say(cost_W, 'heatRate')} more.`,
      remedy:
        'See in the yard at which hours the shadow lies there, and whether the panel can lie elsewhere.',
    },
  ];
}

function swayNotices(solved: SolvedHeat): Notice[] {
  if (!(solved.sway > 0)) return [];
  return [
    {
      code: 'slow-tubes-sway',
      severity: 'unsure',
      path: '/collector',
      message: `Some tubes run so slowly that warm water's own drive moves them as much as the pump does; their flow sways and the heat with it, by about ${(100 * solved.sway).toPrecision(1)} %.`,
      remedy: 'Send more water through the collector, or use fewer tubes side by side.',
    },
  ];
}

function doubtNotices(values: HeatValues, band: HeatBand, say: Say): Notice[] {
  const out: Notice[] = [];
  const [first, second] = band.doubts;
  if (first && first.half_W > 0.03 * Math.max(1, Math.abs(values.heat_W))) {
    out.push({
      code: 'heat-doubt',
      severity: 'unsure',
      path: first.group === 'exposure' ? '/site/exposure/collector' : '',
      message: `What makes the heat unsure is ${DOUBT[first.group] ?? first.group} (±${say(first.half_W, 'heatRate')})${second ? `, then ${DOUBT[second.group] ?? second.group} (±${say(second.half_W, 'heatRate')})` : ''}.`,
      remedy: first.group === 'exposure' ? 'A test day settles it best.' : 'Say or measure it.',
    });
  }
  return out;
}
