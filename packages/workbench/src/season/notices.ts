import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { zoneNotices } from '../check/zone-notices';
import type { Say } from '../flow/say';
import { SCALD_C } from '../heat/heat-notices';
import type { Interval } from '../results';
import { plugNotices } from '../state/plug-notices';
import type { SeasonRival } from './rivals';
import type { Study } from './study';
import type { SeasonValues } from './values';

/** A vinyl liner is made for at most this [°C]; common practice 30–32. */
const VINYL_C = 31;
/** Standing water in the panel freezes in air below this for hours [°C]. */
const FROST_C = -1;
const WHOLE_YEAR_DAYS = 360;

const DOUBTS: Record<SeasonRival['group'], string> = {
  evaporation: 'how fast the pool evaporates',
  poolExposure: 'the wind over the pool',
  collectorExposure: 'the wind at the tubes',
  tees: 'what tees do to the flow',
  skyLongWave: 'how cold the sky is',
  insideFilm: 'how well slow water takes up heat',
};

/** What the person should know about this year. */
export function seasonNotices(
  project: Project,
  study: Study,
  values: SeasonValues,
  band: Record<string, Interval>,
  say: Say,
): Notice[] {
  const out: Notice[] = [
    ...study.weather.notices,
    ...zoneNotices(project),
    ...(study.heats ? plugNotices(project) : []),
  ];
  const add = (
    code: string,
    severity: Notice['severity'],
    path: string,
    message: string,
    remedy?: string,
  ): void => {
    out.push({ code, severity, path, message, ...(remedy ? { remedy } : {}) });
  };
  const { flows, weather, year: run } = study;
  if (!flows.converged)
    add(
      'season-no-flow',
      'unsure',
      '/loop',
      'The flows of the loop could not be found, so the year was run without the collector.',
      'See the notes of the loop.',
    );
  else if (!study.heats)
    add(
      'season-no-flow',
      'heat',
      '/loop/bypass',
      'No water reaches the collector as the loop stands: the year was run without it.',
      'Open a way through the collector.',
    );
  else if (flows.opened)
    add(
      'season-valve-opened',
      'info',
      '/loop/bypass',
      'The bypass now sends all water past the collector; for the year it is taken as fully open to it in running hours.',
    );
  if (flows.converged && !flows.sameTubes)
    add(
      'season-flows-fixed',
      'unsure',
      '/loop',
      'Which tubes carry water changes with its temperature; flows of the year are those at 20 °C.',
    );
  if (!project.season?.run)
    add(
      'season-run-assumed',
      'info',
      '/season/run',
      'No run plan is given: the valve is taken as opened from nine to five in months that are not cold, and closed when the water is 2 K over the wish.',
      'Set the hours, or a controller.',
    );
  if (!project.season?.filterHours)
    add(
      'season-filter-assumed',
      'info',
      '/season/filterHours',
      'No filter hours are given: the pump is taken to run from nine to five anyway.',
    );
  const days = weather.series.length * (weather.series.step_s / 86_400);
  if (days < WHOLE_YEAR_DAYS)
    add(
      'season-part-year',
      'unsure',
      '/season/climate',
      `The weather covers ${Math.round(days)} days; months it lacks are empty, and the first days still remember the start.`,
    );
  hotAndCold(project, study, values, say, add);
  const { year } = values;
  if (year.lost_kWh < -0.02 * Math.abs(year.heat_kWh) - 20)
    add(
      'season-runs-at-a-loss',
      'heat',
      '/season/run',
      `In some of its hours the collector cools the pool: ${say(-year.lost_kWh * 3.6e6, 'energy')} a year.`,
      values.worth ? 'See the hours worth running.' : 'Shorten the hours.',
    );
  const frozen_h = run.collector.frozen_h.reduce((a, b) => a + b, 0);
  if (frozen_h > 0)
    add(
      'season-return-freezes',
      'damage',
      '/season/drained',
      `In ${Math.max(1, Math.round(frozen_h))} h of its year the water would come back from the collector below freezing: ice splits pipe, and what it takes from the pool is not to be trusted.`,
      'Drain the panel in those months, or shorten the hours.',
    );
  if (run.collector.run_h.every((h) => h === 0) && study.heats)
    add(
      'season-never-runs',
      'heat',
      '/season/run',
      'Under this plan no water ever runs through the collector.',
    );
  if (year.swimDays.with === 0)
    add(
      'season-wish-not-reached',
      'info',
      '/pool/wish_C',
      `The afternoon’s water reaches ${say(project.pool.wish_C, 'temperature')} on no day of the year.`,
    );
  for (const name of study.scene.bodiless)
    add(
      'yard-no-body',
      'unsure',
      '/yard/obstacles',
      `${name} has no body and throws no shadow.`,
      'Give it a height and an outline.',
    );
  biggestDoubt(band, add);
  return out;
}

type Add = (
  code: string,
  severity: Notice['severity'],
  path: string,
  message: string,
  remedy?: string,
) => void;

function hotAndCold(project: Project, study: Study, values: SeasonValues, say: Say, add: Add): void {
  const { year } = values;
  if (year.hottestSlug_C !== null && year.hottestSlug_C >= SCALD_C)
    add(
      'season-first-slug-scalds',
      'safety',
      '/season/run',
      `Water that stood in the panel comes first at up to ${say(year.hottestSlug_C, 'temperature')}: it scalds.`,
      'Keep people away from the outlet when the valve is opened.',
    );
  const high = year.pool_C.with?.high ?? 0;
  if (project.pool.lining === 'vinyl' && high > VINYL_C)
    add(
      'season-vinyl-hot',
      'damage',
      '/pool/lining',
      `The water reaches ${say(high, 'temperature')}; vinyl liners are made for about 30 to 32 °C (86 to 90 °F).`,
      'Set a limit at which the collector is closed.',
    );
  if (year.iceHours.with > 0)
    add(
      'season-pool-freezes',
      'damage',
      '/season',
      `The pool carries ice for about ${Math.round(year.iceHours.with)} hours of the year.`,
      'Close pool, pump and pipes down for the winter.',
    );
  const { air_C } = study.weather.series;
  const { month, step_h } = study.calendar;
  const drained = project.season?.drained;
  const frost = air_C.reduce((n, t, i) => n + (t < FROST_C && !drained?.[month[i]] ? 1 : 0), 0) * step_h;
  if (frost >= 3)
    add(
      'season-panel-freezes',
      'damage',
      '/season/drained',
      `Air is below ${say(FROST_C, 'temperature')} in ${Math.round(frost)} hours of ${drained?.includes(true) ? 'the months in which the panel is not drained' : 'this year'}: water that stays in tubes freezes and splits them.`,
      drained?.includes(true)
        ? 'Drain it before the first frost, or in more months.'
        : 'Drain the panel before the first frost, and say in which months it stays drained.',
    );
}

function biggestDoubt(band: Record<string, Interval>, add: Add): void {
  let most = 0;
  let which: SeasonRival['group'] | null = null;
  for (const group of Object.keys(DOUBTS) as SeasonRival['group'][]) {
    const own = band[`heat_kWh.${group}`];
    const days = band[`swimDays.with.${group}`];
    if (!own || !days) continue;
    if (days.high - days.low > most) {
      most = days.high - days.low;
      which = group;
    }
  }
  const whole = band['swimDays.with'];
  if (which && whole)
    add(
      'season-doubt',
      'unsure',
      which === 'collectorExposure' ? '/site/exposure/collector' : '/site/exposure/pool',
      `Swimming days lie between ${Math.round(whole.low)} and ${Math.round(whole.high)}: most of the doubt is ${DOUBTS[which]}. For the heat of a moment the wind at the tubes matters most.`,
      'Compare with your own pool’s temperature through a week, or with a test day.',
    );
}
