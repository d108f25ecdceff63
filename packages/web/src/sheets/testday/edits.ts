import type { TestDay } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';

type Thermometer = NonNullable<TestDay['inlet']>['thermometer'];

/** A usual digital stick: class ±0.5 K, last digit 0.1. */
const THERMOMETER: Thermometer = { resolution_K: 0.1, limit_K: 0.5 };
/** A usual pail: 5 US gal or 10 L, its line good to two hundredths. */
export const PAIL_m3 = { us: 0.0189271, metric: 0.01 };
const LINE_SHARE = 0.02;
/** Common practice. */
const REACTION_s = 0.3;

/** Local time of an instant at the site, `2026-04-12T11:00`; the device's own where its zone is not known. */
export function localTime(now: Date, timeZone: string): string {
  const options: Intl.DateTimeFormatOptions = {
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  };
  let parts: Intl.DateTimeFormatPart[];
  try {
    parts = new Intl.DateTimeFormat('en', { ...options, timeZone }).formatToParts(now);
  } catch {
    parts = new Intl.DateTimeFormat('en', options).formatToParts(now);
  }
  const of = (type: string) => parts.find((p) => p.type === type)?.value ?? '00';
  return `${of('year')}-${of('month')}-${of('day')}T${of('hour')}:${of('minute')}`;
}

/** A day with what is usual, and the thermometers and the pail of the last one. */
export function newDay(project: Project, at: string): TestDay {
  const last = daysByDate(project).at(-1);
  const taken = project.testDays.map((day) => day.id);
  const wish = `day-${at.slice(0, 10)}`;
  let id = wish;
  for (let n = 2; taken.includes(id); n++) id = `${wish}-${n}`;
  const volume = last?.pail?.volume_m3 ?? PAIL_m3[project.units];
  return {
    id,
    at,
    pail: {
      volume_m3: volume,
      volumeLimit_m3: last?.pail?.volumeLimit_m3 ?? volume * LINE_SHARE,
      reaction_s: REACTION_s,
      times_s: [],
    },
    inlet: {
      where: last?.inlet?.where ?? 'skimmer',
      thermometer: last?.inlet?.thermometer ?? THERMOMETER,
      readings: [],
    },
    outlet: {
      where: last?.outlet?.where ?? 'pail',
      thermometer: last?.outlet?.thermometer ?? THERMOMETER,
      readings: [],
    },
  };
}

/** Oldest first. */
export const daysByDate = (project: Pick<Project, 'testDays'>): TestDay[] =>
  [...project.testDays].sort((a, b) => a.at.localeCompare(b.at));

/** The day of that name; the latest where there is none. */
export const dayOf = (project: Project, id: string | null): TestDay | null =>
  project.testDays.find((day) => day.id === id) ?? daysByDate(project).at(-1) ?? null;

export const withDay = (project: Project, day: TestDay): Project => ({
  ...project,
  testDays: project.testDays.some((one) => one.id === day.id)
    ? project.testDays.map((one) => (one.id === day.id ? day : one))
    : [...project.testDays, day],
});

export const withoutDay = (project: Project, id: string): Project => ({
  ...project,
  testDays: project.testDays.filter((day) => day.id !== id),
});

/** One more run of the pail. A time as it was read; what is impossible is judged later, not dropped here. */
export function addTime(day: TestDay, units: Project['units'], seconds: number): TestDay {
  const pail = day.pail ?? {
    volume_m3: PAIL_m3[units],
    volumeLimit_m3: PAIL_m3[units] * LINE_SHARE,
    reaction_s: REACTION_s,
    times_s: [],
  };
  return { ...day, pail: { ...pail, times_s: [...pail.times_s, seconds] } };
}

export function dropTime(day: TestDay, index: number): TestDay {
  if (day.pail === undefined) return day;
  return { ...day, pail: { ...day.pail, times_s: day.pail.times_s.filter((_, i) => i !== index) } };
}

/** A reading of both thermometers at once. */
export function addPair(day: TestDay, inlet_C: number, outlet_C: number): TestDay {
  const inlet = day.inlet ?? { where: 'skimmer' as const, thermometer: THERMOMETER, readings: [] };
  const outlet = day.outlet ?? { where: 'pail' as const, thermometer: THERMOMETER, readings: [] };
  return {
    ...day,
    inlet: { ...inlet, readings: [...inlet.readings, { value_C: inlet_C }] },
    outlet: { ...outlet, readings: [...outlet.readings, { value_C: outlet_C }] },
  };
}

export function dropPair(day: TestDay, index: number): TestDay {
  const without = <T>(list: T[]) => list.filter((_, i) => i !== index);
  return {
    ...day,
    ...(day.inlet && { inlet: { ...day.inlet, readings: without(day.inlet.readings) } }),
    ...(day.outlet && { outlet: { ...day.outlet, readings: without(day.outlet.readings) } }),
  };
}

export function addSamePail(day: TestDay, inlet_C: number, outlet_C: number): TestDay {
  return { ...day, samePail: [...(day.samePail ?? []), [inlet_C, outlet_C]] };
}

export function dropSamePail(day: TestDay, index: number): TestDay {
  const { samePail, ...rest } = day;
  const left = (samePail ?? []).filter((_, i) => i !== index);
  return left.length === 0 ? rest : { ...rest, samePail: left };
}

export interface TubeName {
  section: string;
  bank: string;
  tube: number;
}

const isTube = (a: TubeName) => (b: TubeName) =>
  a.section === b.section && a.bank === b.bank && a.tube === b.tube;

/** How a tube felt; null takes the entry out. */
export function setTouch(day: TestDay, at: TubeName, feel: 'cool' | 'warm' | 'hot' | null): TestDay {
  const { touch, ...rest } = day;
  const others = (touch ?? []).filter((one) => !isTube(at)(one));
  const next = feel === null ? others : [...others, { ...at, feel }];
  return next.length === 0 ? rest : { ...rest, touch: next };
}

/** What a thermometer read on a tube; null takes the entry out. */
export function setTube(day: TestDay, at: TubeName, value_C: number | null): TestDay {
  const { tubes, ...rest } = day;
  const others = (tubes ?? []).filter((one) => !isTube(at)(one));
  const next = value_C === null ? others : [...others, { ...at, value_C }];
  return next.length === 0 ? rest : { ...rest, tubes: next };
}

export const touchOf = (day: TestDay, at: TubeName) => day.touch?.find(isTube(at))?.feel ?? null;
export const tubeOf = (day: TestDay, at: TubeName) => day.tubes?.find(isTube(at))?.value_C ?? null;
