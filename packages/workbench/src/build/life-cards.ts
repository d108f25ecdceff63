import type { Plumbing } from '@sunlap/project/schema/collector';
import type { Path } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import type { FlowAnswer, HeatAnswer } from '../results';
import type { Fitting } from './bag';
import { historyCard, mending, rebuild } from './mending-cards';
import type { Gathering } from './strand';
import type { SupportPlan } from './support-plan';
import { dayWords, type WeatherFacts } from './weather-facts';

/** One printable card, made from this design. */
export interface LifeCard {
  readonly id:
    | 'firstFill'
    | 'opening'
    | 'closing'
    | 'restart'
    | 'shutDown'
    | 'leakSearch'
    | 'mending'
    | 'walkRound'
    | 'rebuild'
    | 'history';
  readonly title: string;
  readonly lines: readonly string[];
  readonly cautions: readonly string[];
}

/** What the cards take from the studies; each line without its figure is left out. */
export interface CardFacts {
  readonly volume_m3: number;
  readonly flow: FlowAnswer | null;
  readonly heat: HeatAnswer | null;
  readonly supports: SupportPlan;
  /** Water that stays after draining [m³], and where. */
  readonly stays_m3: number;
  readonly staysIn: readonly string[];
  readonly dry_C: number;
  readonly year: WeatherFacts;
  readonly fittings: readonly Fitting[];
  readonly glued: number;
  /** Longest cure on the days of gluing [s]; null when the air is outside the tables. */
  readonly cure_s: number | null;
}

/** Every card of the heater's life. */
export function lifeCards(g: Gathering, project: Project, facts: CardFacts): LifeCard[] {
  return [
    firstFill(g, project, facts),
    opening(g, project, facts),
    closing(project),
    restart(g, facts),
    shutDown(g, project, facts),
    leakSearch(project),
    mending(g, project, facts),
    walkRound(g, project, facts),
    rebuild(project, facts),
    historyCard(project),
  ];
}

/** Names of the taps of a purpose, with where they are. */
function taps(project: Project, purpose: 'drain' | 'bleed' | 'airVent' | 'vacuumBreaker'): string[] {
  const own = project.collector.taps
    .filter((t) => t.purpose === purpose)
    .map(
      (t) =>
        `“${t.id}” (${t.at.bank}, ${t.at.header === 'supply' ? 'supply' : 'return'} header, ${t.at.end} end)`,
    );
  const paths = [project.loop.feed, project.loop.return, project.loop.toPool];
  const loop = paths.flatMap((p) =>
    p.flatMap((e) => (e.kind === 'tap' && e.purpose === purpose ? [`“${e.name ?? e.id}”`] : [])),
  );
  return [...own, ...loop];
}

function toCollectorWords(project: Project): readonly [open: string, shut: string] {
  const { bypass } = project.loop;
  if (bypass.kind === 'none') return ['start the pump', 'stop the pump'];
  if (bypass.kind === 'threeWay')
    return [
      'turn the three-way valve slowly towards the collector',
      'turn the three-way valve back past the collector',
    ];
  return [
    `open “${bypass.toCollector.name ?? bypass.toCollector.id}” slowly, then shut “${bypass.pastValve.name ?? bypass.pastValve.id}” by half turns`,
    `open “${bypass.pastValve.name ?? bypass.pastValve.id}” first, then shut “${bypass.toCollector.name ?? bypass.toCollector.id}”`,
  ];
}

function firstFill(g: Gathering, project: Project, f: CardFacts): LifeCard {
  const { say } = g;
  const fill = f.flow?.result.firstFill;
  const vents = [...taps(project, 'airVent'), ...taps(project, 'bleed'), ...taps(project, 'vacuumBreaker')];
  const fallText = fill ? `; the pool falls ${say(fill.poolFall_m, 'smallLength')}` : '';
  const minutes = fill?.minutes ? ` It takes about ${Math.ceil(fill.minutes)} min.` : '';
  const speed = f.flow?.result.start.leastStartSpeed;
  return {
    id: 'firstFill',
    title: 'First fill',
    lines: [
      `The collector holds ${say(f.volume_m3, 'volume')}; with its pipes the pool gives ${say(fill?.volume_m3 ?? f.volume_m3, 'volume')}${fallText}. Top the pool up first.${minutes}`,
      vents.length > 0
        ? `Open ${vents.join(', ')}; shut the drains. Air leaves there.`
        : 'There is no vent on this panel: air leaves only with the water. Watch the outlets until no bubbles come.',
      ...(speed ? [`Least pump speed that starts every tube: ${Math.round(speed * 100)} % of rated.`] : []),
      `Pump on, past the collector; then ${toCollectorWords(project)[0]}. Close each bleed when water comes without air.`,
      'Stay for the first hour: every joint with a dry cloth, the skimmer’s level, the pump’s basket.',
    ],
    cautions: ['noAirTest', 'dryPump', 'entrapment', 'deadHead'],
  };
}

function opening(g: Gathering, project: Project, f: CardFacts): LifeCard {
  const slug = f.heat?.result.firstSlug;
  return {
    id: 'opening',
    title: 'Opening in the morning, by hand',
    lines: [
      'Nobody at the outlets; the pump runs past the collector.',
      `Then ${toCollectorWords(project)[0]}.`,
      slug
        ? `The water that stood comes first: up to ${g.say(slug.temperature_C, 'temperature')}, ${g.say(slug.volume_m3, 'volume')}, over in about ${Math.max(1, Math.ceil(slug.seconds / 60))} min. Dry pipe can be hotter still (${g.say(f.dry_C, 'temperature')}).`
        : `Water that stood in the sun comes first and can scald: the panel’s own ${g.say(f.volume_m3, 'volume')} and the return pipe’s.`,
      'Open when the sun has been on the panel for a while and its pipe feels warmer than the pool.',
    ],
    cautions: ['scald', 'deadHead', 'stagnant'],
  };
}

function closing(project: Project): LifeCard {
  return {
    id: 'closing',
    title: 'Closing in the evening, by hand',
    lines: [
      `When the return feels no warmer than the pool, ${toCollectorWords(project)[1]}.`,
      'Never both ways shut while the pump runs.',
      'Full and still overnight is well in frost-free weather; before frost see “Shut-down”.',
    ],
    cautions: ['deadHead', 'freeze'],
  };
}

function restart(g: Gathering, f: CardFacts): LifeCard {
  return {
    id: 'restart',
    title: 'Restart after standing',
    lines: [
      'Chlorine up first, nobody in the water: what stood is warm and stale.',
      `Flush ${g.say(3 * f.volume_m3, 'volume')} (three times the panel) slowly; to waste where that is allowed.`,
      'Bleed the air, look at every joint, test the water again before anyone swims.',
    ],
    cautions: ['scald', 'stagnant', 'deadHead'],
  };
}

function shutDown(g: Gathering, project: Project, f: CardFacts): LifeCard {
  const drains = taps(project, 'drain');
  const litres = f.stays_m3;
  return {
    id: 'shutDown',
    title: 'Shut-down for storm and frost',
    lines: [
      frostWords(g, f.year),
      `Pump off at its breaker; ${toCollectorWords(project)[1]}.`,
      drains.length > 0
        ? `Open ${drains.join(', ')} and the vents above: water leaves only where air comes in.`
        : 'This panel has no drain: water leaves only where a pipe is opened at its lowest point. Fit one.',
      litres > 1e-5
        ? `${g.say(litres, 'volume')} stay in ${f.staysIn.join(', ') || 'low spots'}. Lift the low ends, or blow them out: open ends, a leaf blower, never a compressor and never as a test.`
        : 'By the drawing nothing stays; see that no tube drips after an hour.',
      'Leave drains and vents open. Before a storm: straps, covers, nothing loose under the panel.',
    ],
    cautions: ['freeze', 'noAirTest', 'electric', 'level'],
  };
}

/** When frost is to be reckoned with: of one year, so with room before it. */
function frostWords(g: Gathering, year: WeatherFacts): string {
  const coldest = g.say(year.coldest_C, 'temperature');
  if (year.firstFrost === null || year.lastFrost === null)
    return `The year of ${year.place} has no frost; its coldest hour is ${coldest}. A rare night can still bring it: know how to drain.`;
  return `First frost in the year of ${year.place}: ${dayWords(year.firstFrost)}, last ${dayWords(year.lastFrost)}, coldest ${coldest}. Other years differ by weeks: be done by ${dayWords(earlier(year.firstFrost))}.`;
}

/** Two weeks before a day of the year. */
function earlier(day: string): string {
  const [month, date] = day.split('-').map(Number);
  return new Date(Date.UTC(2001, month - 1, date - 14)).toISOString().slice(5, 10);
}

function leakSearch(project: Project): LifeCard {
  const sections = project.collector.sections.map((s) => s.name ?? s.id);
  const valves = isolatingValves(project);
  return {
    id: 'leakSearch',
    title: 'Searching a leak',
    lines: [
      'Mark the skimmer’s level, run a night with the collector in and a night past it: which night loses more? A bucket on the step tells evaporation apart.',
      valves.length > 0
        ? `Pump off; shut ${valves.join(', ')} one after the other and see what stops: that narrows it to ${sections.length > 1 ? `one of ${sections.join(', ')}` : 'feed, panel or return'}. Never all at once while the pump runs.`
        : `No valve isolates ${sections.length > 1 ? 'a section' : 'the panel'} by itself: with the pump off, a leak below the pool’s water goes on, one above it stops when the pipe has run empty.`,
      'Dry cloth or paper along each header, branch by branch; wet sand and green streaks below tell more than drops on a hot day.',
      'Mark what you find with the number painted on the panel: pass, tube, end.',
    ],
    cautions: ['dryPump', 'noAirTest', 'scald'],
  };
}

/** Valves that part the heater from the pool, or a section from the others. */
function isolatingValves(project: Project): string[] {
  const { loop, collector } = project;
  const names: string[] = [];
  const of = (path: Path): void => {
    for (const e of path) {
      if (e.kind === 'valve') names.push(`“${e.name ?? e.id}”`);
      if (e.kind === 'split') e.branches.forEach(of);
    }
  };
  if (loop.bypass.kind === 'twoValves') of([loop.bypass.toCollector]);
  of(loop.feed);
  const walk = (part: Plumbing): void => {
    of(part.before ?? []);
    for (const p of part.series ?? part.parallel ?? []) walk(p);
    of(part.after ?? []);
  };
  walk(collector.plumbing);
  of(loop.return);
  return names;
}

function walkRound(g: Gathering, project: Project, f: CardFacts): LifeCard {
  const row = f.supports.rows[0];
  const drop = f.flow?.result.collector.headLoss_m;
  return {
    id: 'walkRound',
    title: 'Yearly walk-round',
    lines: [
      ...(row
        ? [
            `Sag in the middle of a span of ${row.name}, filled: new it should be under ${g.say(row.sagEnd_m, 'diameter')}; that is also what years of heat come to. More: another support.`,
          ]
        : []),
      'Wipe a tube: white dust is chalking; paint it before the next summer. Look for bows, cracks at tees, straps that have become tight.',
      ...(drop !== undefined
        ? [
            `A gauge reading to compare: the collector takes ${g.say(drop, 'head')} at ${g.say(f.flow!.result.collectorFlow_m3s, 'flow')}. More at the same flow: something is blocked.`,
          ]
        : []),
      `Work each valve once, each vent and breaker; ${taps(project, 'drain').length > 0 ? 'run each drain' : 'fit a drain at the lowest point'}.`,
      'Heights by string again: ground moves. Write readings down with their date: next year is judged against them.',
    ],
    cautions: ['scald', ...(project.collector.placement.mounting === 'roof' ? ['fall'] : [])],
  };
}
