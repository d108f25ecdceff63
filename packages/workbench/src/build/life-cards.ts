import { findMaterial } from '@sunlap/data/materials';
import { findCementCure } from '@sunlap/data/solventCement';
import { lengthChange } from '@sunlap/engine/building/expansion';
import type { Project } from '@sunlap/project/schema/project';
import type { FlowAnswer, HeatAnswer } from '../results';
import { planCure } from './cure-words';
import { joinableOf, sizeText } from './joints';
import type { Gathering } from './strand';
import type { SupportPlan } from './support-plan';

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
    | 'rebuild';
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
  readonly firstFrost: string | null;
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
    rebuild(project),
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
      ...(f.firstFrost
        ? [`First frost of this climate: about ${f.firstFrost}. Be done two weeks before.`]
        : []),
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

function leakSearch(project: Project): LifeCard {
  const sections = project.collector.sections.map((s) => s.name ?? s.id);
  return {
    id: 'leakSearch',
    title: 'Searching a leak',
    lines: [
      'Mark the skimmer’s level, run a night with the collector in and a night past it: which night loses more? A bucket on the step tells evaporation apart.',
      sections.length > 1
        ? `Then by section, each shut off in turn: ${sections.join(', ')}.`
        : 'One section: shut its feed and its return in turn, where valves are.',
      'Dry cloth or paper along each header, branch by branch; wet sand and green streaks below tell more than drops on a hot day.',
      'Mark what you find with the number painted on the panel: pass, tube, end.',
    ],
    cautions: ['dryPump', 'noAirTest', 'scald'],
  };
}

function mending(g: Gathering, project: Project, f: CardFacts): LifeCard {
  const { say } = g;
  const section = project.collector.sections[0];
  const bank = section.banks.find((b) => b.kind === 'tubes');
  const lines: string[] = [];
  if (bank && bank.kind === 'tubes') {
    const pipe = joinableOf(bank.pipe);
    const count = project.collector.sections.reduce(
      (n, s) => n + s.banks.reduce((m, b) => m + (b.kind === 'tubes' ? b.count : 0), 0),
      0,
    );
    const size = pipe ? sizeText(pipe.pipe.nominal, pipe.base) : bank.pipe;
    const heat = f.heat ? ` about ${say(f.heat.result.heat_W / count, 'heatRate')} of today’s heat,` : '';
    lines.push(
      `Plug: cut the tube near each header, leave a stub of ${say(2 * (pipe?.socket_m ?? 0.02), 'diameter')}, a cap of ${size} on each. It costs${heat} one tube of ${count}, and asks no movement.`,
    );
    if (pipe?.way === 'cement') {
      const needed = pipe.socket_m;
      const material = findMaterial(pipe.pipe.material);
      const moves = Math.abs(lengthChange(material?.expansion_perK ?? 5.4e-5, bank.length_m, 20));
      lines.push(
        `Couple: cut out the bad piece and bring two couplings of ${size} and a new piece in. The tube has to give ${say(needed, 'diameter')} along its length; bowed sideways by ${say(Math.sqrt((needed * bank.length_m) / 0.6), 'length')} it does, by cooling 20 K only ${say(moves, 'diameter')}. A repair coupling without a stop slides and needs no give.`,
      );
      const cure = findCementCure(pipe.pipe.nominal, g.options.glueAir_C);
      lines.push(
        cure
          ? `Dry, clean, glue; ${planCure(cure.set_s)} before it is moved, ${planCure(cure.cureLow_s)} before pressure at ${say(g.options.glueAir_C, 'temperature')}. Meanwhile ${section.banks.length > 1 || project.collector.sections.length > 1 ? 'the other sections run on' : 'the heater stands'}.`
          : 'Glue only in air that the can allows.',
      );
    } else
      lines.push(`Or cut the bad piece out and join with two ${size} connectors and clamps; no waiting.`);
  } else
    lines.push(
      'Cut the bad length out and join the ends with two connectors; no waiting where they are clamped.',
    );
  lines.push(
    'Write down the date, the tube and what was done: test days are judged against the state of their day.',
  );
  return { id: 'mending', title: 'Mending one tube', lines, cautions: ['solvent', 'scald', 'noAirTest'] };
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
      'Heights by string again: ground moves.',
    ],
    cautions: ['scald', ...(project.collector.placement.mounting === 'roof' ? ['fall'] : [])],
  };
}

function rebuild(project: Project): LifeCard {
  const sections = project.collector.sections.length;
  return {
    id: 'rebuild',
    title: 'Rebuild: what can be used again',
    lines: [
      'Again: valves, unions’ nuts, straps, boards, straight tube cut clear of its sockets (each end loses the socket’s depth), headers sawn out whole.',
      'Not again: anything cemented at both ends, chalked or bowed pipe, fittings that were pulled.',
      'Cut lengths of old tube go in under “pipe on hand”: the cutting plan uses them first.',
      sections > 1
        ? `Section by section: the ${sections === 2 ? 'other runs' : 'others run'} on; out of service: the tie-ins’ day and their cure.`
        : 'With one section the heater is out of service from the first cut to the end of cure.',
    ],
    cautions: ['solvent', 'electric'],
  };
}
