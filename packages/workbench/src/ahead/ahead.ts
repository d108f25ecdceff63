import { type Notice, rankNotices } from '@sunlap/engine/numeric/notice';
import { EVAPORATION_MODELS, type EvaporationName } from '@sunlap/engine/pool/evaporation';
import { drain } from '@sunlap/engine/season/year';
import { stepStart_ms } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import { zoneNotices } from '../check/zone-notices';
import { sayIn } from '../flow/say';
import { SCALD_C } from '../heat/heat-notices';
import { utcOf, wallClockAt } from '../heat/local-time';
import { collectorExposure } from '../heat/moment';
import type { Answer } from '../results';
import { EVAPORATION, poolExposure, USUAL_COVER } from '../season/assumed';
import {
  createSeasonCache,
  type SeasonCache,
  type Study,
  type StudyChange,
  studyYear,
} from '../season/study';
import { plugNotices } from '../state/plug-notices';
import type { ForecastDay } from './forecast';
import { type ForecastLean, forecastHours } from './hours';
import { clockWords, momentWords } from './words';

export interface AheadOptions {
  /** Local time from which it counts, `2026-04-12T08:00`; taken at the full hour. */
  readonly at: string;
  readonly water_C: number;
  readonly days: readonly ForecastDay[];
  /** Is a cover put on at night? As in the file when left out. */
  readonly cover?: boolean;
  readonly cache?: SeasonCache;
  /** False leaves out the band and the acts: one run, for typing. */
  readonly full?: boolean;
}

/** The water at the end of an hour. */
export interface AheadHour {
  /** Local time at its end. */
  at: string;
  water_C: number;
  low_C: number;
  high_C: number;
  withoutCollector_C: number;
  air_C: number;
  /** Share of the hour with water through the collector, and heat from it [W]. */
  run: number;
  heat_W: number;
}

/** When to turn the valve on one day, by the wall clock. */
export interface ValveDay {
  date: string;
  /** Null on days that are not worth it. */
  open: string | null;
  close: string | null;
  heat_kWh: number;
}

/** One thing a person could do, and how much warmer the last afternoon's water would be. */
export interface AheadAct {
  id: 'collector' | 'coverAtNight' | 'coverAlways' | 'noCover';
  name: string;
  gain_K: number;
}

export interface AheadValues {
  from: string;
  water_C: number;
  wish_C: number;
  cover: boolean;
  hours: AheadHour[];
  valve: ValveDay[];
  /** First hour at the wish, with the earliest and latest of the band; null when it is not reached. */
  reached: { at: string; earliest: string | null; latest: string | null } | null;
  /** The warmest it gets, and the least and most it may be then. */
  warmest: { at: string; water_C: number; low_C: number; high_C: number };
  acts: AheadAct[];
  best: AheadAct | null;
  saying: string;
}

export type AheadAnswer = Answer<AheadValues>;

/** Less mean heat than this is not worth a walk to the valve [W]; judgement. */
const WORTH_W = 300;
/** A valve turned by hand is opened when standing water is this much over the pool [K]; judgement. */
const STANDING_K = 2;
const OVER_WISH_K = 2;
/** Afternoon of the last day, over which acts are compared [h]. */
const AFTERNOON = [13, 18] as const;
const NIGHT = { from_h: 20, to_h: 9 } as const;

/**
 * The days ahead: the water hour by hour from a typed forecast, when the wish is reached, when to turn the valve,
 * and the one act that gains most.
 *
 * The valve is taken to be turned at the best times: open while the collector gives a worthwhile heat, closed
 * when the water is 2 K over the wish.
 *
 * @throws {DomainError} for a time that is not written as one
 * @example ahead(project, { at: '2026-05-02T08:00', water_C: 23, days }).result.reached
 */
export function ahead(project: Project, options: AheadOptions): AheadAnswer {
  const cache = options.cache ?? createSeasonCache();
  const at = `${options.at.slice(0, 13)}:00`;
  const start_ms = utcOf(at, project.site.timeZone);
  const water_C = Math.min(45, Math.max(0, options.water_C));
  const cover = options.cover ?? project.season?.cover !== undefined;
  const months = new Array<boolean>(12).fill(true);
  const covered = (p: Project, hours: { from_h: number; to_h: number } | null): Project => {
    const { cover: own, ...rest } = p.season ?? {};
    return {
      ...p,
      season: hours
        ? { ...rest, cover: { cover: own?.cover ?? USUAL_COVER, on: [{ months, ...hours }] } }
        : rest,
    };
  };
  const plain = covered(project, null);
  const asAsked = cover
    ? project.season?.cover && options.cover === undefined
      ? project
      : covered(project, NIGHT)
    : plain;
  const run = (p: Project, change: StudyChange = {}, lean: ForecastLean = {}, offLimit_K = 0.05): Study => {
    const weather = forecastHours(p, options.days, start_ms, lean);
    const byHand = {
      kind: 'controller' as const,
      onDifference_K: STANDING_K,
      offDifference_K: offLimit_K,
      limit_C: Math.min(45, p.pool.wish_C + OVER_WISH_K),
      from_h: 0,
      to_h: 24,
    };
    const timed: Project = { ...p, season: { ...p.season, run: byHand } };
    return drain(studyYear(timed, { weather, cache, start_C: water_C, keepSteps: true, change }));
  };
  // the least rise worth a walk follows from the flow
  const probe = run(asAsked);
  const capacity = probe.flows.collector_kgs * 4180;
  const off_K = capacity > 0 ? WORTH_W / capacity : 0.05;
  const base = run(asAsked, {}, {}, off_K);
  const band = options.full === false ? null : bandOf(project, base, (c, l) => run(asAsked, c, l, off_K));
  const hours = hoursOf(base, band, project.site.timeZone);
  const valve = valveDays(base);
  const acts =
    options.full === false
      ? []
      : actsOf(base, cover, (hoursOn) => run(covered(project, hoursOn), {}, {}, off_K));
  const wish = project.pool.wish_C;
  const first = (of: (h: AheadHour) => number): string | null => hours.find((h) => of(h) >= wish)?.at ?? null;
  const reachedAt = water_C >= wish ? at : first((h) => h.water_C);
  const warmest = hours.reduce((a, b) => (b.water_C > a.water_C ? b : a));
  const best = acts.filter((a) => a.gain_K > 0.02).sort((a, b) => b.gain_K - a.gain_K)[0] ?? null;
  const reached = reachedAt
    ? {
        at: reachedAt,
        earliest: first((h) => h.high_C) ?? reachedAt,
        latest: first((h) => h.low_C),
      }
    : null;
  const values: AheadValues = {
    from: at,
    water_C,
    wish_C: wish,
    cover,
    hours,
    valve,
    reached,
    warmest: { at: warmest.at, water_C: warmest.water_C, low_C: warmest.low_C, high_C: warmest.high_C },
    acts,
    best,
    saying: sayingOf(reached, hours, wish, valve, project.units),
  };
  const { balanceOk, residual } = closes(base);
  return {
    result: values,
    solver: { converged: balanceOk && base.flows.converged, iterations: hours.length, residual },
    band: {
      warmest_C: { low: warmest.low_C, high: warmest.high_C },
      last_C: { low: hours[hours.length - 1].low_C, high: hours[hours.length - 1].high_C },
    },
    notices: rankNotices(noticesOf(project, base)),
    complete: options.full !== false,
  };
}

function closes(study: Study): { balanceOk: boolean; residual: number } {
  const { with: pool } = study.year;
  const residual = pool.throughput_J > 0 ? Math.abs(pool.residual_J) / pool.throughput_J : 0;
  return { balanceOk: residual <= 1e-6, residual };
}

interface HourBand {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** What each doubt does to each hour, by itself; together as root sum of squares. */
function bandOf(
  project: Project,
  base: Study,
  run: (change: StudyChange, lean: ForecastLean) => Study,
): HourBand {
  const own = EVAPORATION[project.season?.evaporation ?? 'smithLofJones'];
  const [pool, tubes] = [poolExposure(project), collectorExposure(project)];
  const rivals: { group: string; change?: StudyChange; lean?: ForecastLean }[] = [
    ...(Object.keys(EVAPORATION_MODELS) as EvaporationName[])
      .filter((n) => n !== own)
      .map((evaporation) => ({ group: 'evaporation', change: { evaporation } })),
    { group: 'pool', change: { poolExposure: pool.low } },
    { group: 'pool', change: { poolExposure: pool.high } },
    { group: 'tubes', change: { collectorExposure: tubes.low } },
    { group: 'tubes', change: { collectorExposure: tubes.high } },
    { group: 'sky', lean: { sky: -1 } },
    { group: 'sky', lean: { sky: 1 } },
    { group: 'wind', lean: { wind: -1 } },
    { group: 'wind', lean: { wind: 1 } },
    { group: 'air', lean: { air_K: -1.5 } },
    { group: 'air', lean: { air_K: 1.5 } },
    { group: 'dew', lean: { dew_K: -3 } },
    { group: 'dew', lean: { dew_K: 3 } },
  ];
  const middle = base.year.stepWith_C!;
  const n = middle.length;
  const groups = new Map<string, HourBand>();
  for (const rival of rivals) {
    const other = run(rival.change ?? {}, rival.lean ?? {}).year.stepWith_C!;
    const one = groups.get(rival.group) ?? { low: new Float64Array(n), high: new Float64Array(n) };
    groups.set(rival.group, one);
    for (let i = 0; i < n; i++) {
      one.low[i] = Math.min(one.low[i], other[i] - middle[i]);
      one.high[i] = Math.max(one.high[i], other[i] - middle[i]);
    }
  }
  const out: HourBand = { low: new Float64Array(n), high: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    for (const g of groups.values()) {
      out.low[i] += g.low[i] ** 2;
      out.high[i] += g.high[i] ** 2;
    }
    out.low[i] = Math.sqrt(out.low[i]);
    out.high[i] = Math.sqrt(out.high[i]);
  }
  return out;
}

function hoursOf(base: Study, band: HourBand | null, timeZone: string): AheadHour[] {
  const { year, weather } = base;
  const end_ms = (i: number): number => wallClockAt(stepStart_ms(weather.series, i + 1), timeZone);
  return Array.from(year.stepWith_C!, (t, i) => ({
    at: new Date(end_ms(i)).toISOString().slice(0, 16),
    water_C: t,
    low_C: t - (band?.low[i] ?? 0),
    high_C: t + (band?.high[i] ?? 0),
    withoutCollector_C: year.stepWithout_C![i],
    air_C: weather.series.air_C[i],
    run: year.stepRun![i],
    heat_W: year.stepHeat_W![i],
  }));
}

/** First and last hour of each day with water through the collector. */
function valveDays(base: Study): ValveDay[] {
  const { calendar, year } = base;
  const out: ValveDay[] = calendar.dates.map((date) => ({ date, open: null, close: null, heat_kWh: 0 }));
  const clock = (h: number): string => {
    const minutes = Math.round(h * 60);
    return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
  };
  year.stepRun!.forEach((share, i) => {
    if (!(share > 0)) return;
    const day = out[calendar.day[i]];
    const from = calendar.hour[i] - 0.5;
    day.open ??= clock(from);
    day.close = clock(from + Math.max(0.25, Math.round(share * 4) / 4));
    day.heat_kWh += year.stepHeat_W![i] / 1000;
  });
  return out;
}

/** Mean of the last day's afternoon, or of the last hours when there is none [°C]. */
function lastAfternoon(study: Study, of: Float32Array): number {
  const { calendar } = study;
  const last = calendar.days - 1;
  let sum = 0;
  let count = 0;
  of.forEach((t, i) => {
    const inside = calendar.hour[i] > AFTERNOON[0] && calendar.hour[i] < AFTERNOON[1];
    if (calendar.day[i] !== last || !inside) return;
    sum += t;
    count++;
  });
  return count > 0 ? sum / count : of[of.length - 1];
}

function actsOf(
  base: Study,
  cover: boolean,
  withCover: (hours: { from_h: number; to_h: number } | null) => Study,
): AheadAct[] {
  const now = lastAfternoon(base, base.year.stepWith_C!);
  const acts: AheadAct[] = [];
  if (base.heats)
    acts.push({
      id: 'collector',
      name: 'Open the valve in the hours given',
      gain_K: now - lastAfternoon(base, base.year.stepWithout_C!),
    });
  const covered = (hours: { from_h: number; to_h: number } | null): number => {
    const study = withCover(hours);
    return lastAfternoon(study, study.year.stepWith_C!);
  };
  if (cover)
    acts.push({
      id: 'coverAtNight',
      name: 'Put the cover on at night, as planned',
      gain_K: now - covered(null),
    });
  else
    acts.push({
      id: 'coverAtNight',
      name: 'Put a cover on from eight to nine',
      gain_K: covered(NIGHT) - now,
    });
  acts.push({
    id: 'coverAlways',
    name: 'Keep the cover on day and night',
    gain_K: covered({ from_h: 0, to_h: 24 }) - now,
  });
  return acts;
}

function sayingOf(
  reached: AheadValues['reached'],
  hours: readonly AheadHour[],
  wish_C: number,
  valve: readonly ValveDay[],
  units: Project['units'],
): string {
  const today = valve[0];
  const turn = today?.open
    ? `Today: open the valve at ${clockWords(today.open, units)}, close it at ${clockWords(today.close ?? today.open, units)}.`
    : 'Today the collector is not worth opening.';
  if (reached) return `${turn} The wish is reached on ${momentWords(reached.at, units)}.`;
  const may = hours.some((h) => h.high_C >= wish_C);
  return `${turn} The wish is not reached in these days${may ? ', though it may just be' : ''}.`;
}

function noticesOf(project: Project, base: Study): Notice[] {
  const out: Notice[] = [...zoneNotices(project), ...(base.heats ? plugNotices(project) : [])];
  if (base.heats && base.calendar.month.some((m) => project.season?.drained?.[m]))
    out.push({
      code: 'ahead-panel-drained',
      severity: 'heat',
      path: '/season/drained',
      message: 'The panel is said to be drained in this month: on those days nothing runs.',
      remedy: 'Take the month out of those in which it is drained once the panel is filled again.',
    });
  if (!base.heats)
    out.push({
      code: 'ahead-no-collector',
      severity: 'heat',
      path: '/loop',
      message: 'No water reaches the collector: the days ahead are those of the pool alone.',
      remedy: 'See the notes of the loop.',
    });
  return [...out, ...firstWaterNotices(base.year.collector.hottestSlug_C, project.units)];
}

/** Water that stood in the panel and would burn who stands at the outlet. */
export function firstWaterNotices(hottest_C: number, units: Project['units']): Notice[] {
  if (!(hottest_C >= SCALD_C)) return [];
  return [
    {
      code: 'season-first-slug-scalds',
      severity: 'safety',
      path: '/loop',
      message: `Water that stood in the panel comes first at up to ${sayIn(units)(hottest_C, 'temperature')}: it scalds.`,
      remedy: 'Keep people away from the outlet when the valve is opened.',
    },
  ];
}
