import { joinableOf, sizeText } from '@sunlap/data/joinable';
import { findMaterial } from '@sunlap/data/materials';
import { findCementCure } from '@sunlap/data/solventCement';
import { lengthChange } from '@sunlap/engine/building/expansion';
import type { Project } from '@sunlap/project/schema/project';
import { history } from '../state/history';
import type { Fitting } from './bag';
import { planCure } from './cure-words';
import type { CardFacts, LifeCard } from './life-cards';
import type { Gathering } from './strand';

/** One tube plugged or coupled: parts, movement, wait, heat lost meanwhile. */
export function mending(g: Gathering, project: Project, f: CardFacts): LifeCard {
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

/** Joints that two people glue in a day with fitting and measuring; judgement. */
const JOINTS_A_DAY = 60;
const DAY_S = 86_400;

/** Parts that outlive a rebuild: nothing in them is cemented for good, or their nuts are not. */
const AGAIN: readonly (readonly [Fitting['kind'], string, string])[] = [
  ['union', 'nut of a union', 'nuts of unions'],
  ['vent', 'vent', 'vents'],
  ['breaker', 'vacuum breaker', 'vacuum breakers'],
  ['clamp', 'hose clamp', 'hose clamps'],
  ['support', 'strap', 'straps'],
  ['absorber', 'absorber', 'absorbers'],
];

/** What a rebuild keeps, and how long the heater is out of service. */
export function rebuild(project: Project, f: CardFacts): LifeCard {
  const sections = project.collector.sections.length;
  const again = AGAIN.flatMap(([kind, one, many]) => {
    const n = f.fittings.reduce((sum, part) => sum + (part.kind === kind ? part.count : 0), 0);
    return n === 0 ? [] : [`${n} ${n === 1 ? one : many}`];
  });
  const each = Math.ceil(f.glued / sections);
  const days = Math.ceil(each / JOINTS_A_DAY) + Math.ceil((f.cure_s ?? DAY_S) / DAY_S);
  return {
    id: 'rebuild',
    title: 'Rebuild: what can be used again',
    lines: [
      `Again: ${[...again, 'boards'].join(', ')}; valves that unscrew; straight tube cut clear of its sockets (each end loses the socket’s depth); headers sawn out whole.`,
      'Not again: anything cemented at both ends, chalked or bowed pipe, fittings that were pulled.',
      'Cut lengths of old tube go in under “pipe on hand”: the cutting plan uses them first.',
      sections > 1
        ? `Section by section the ${sections === 2 ? 'other runs' : 'others run'} on: about ${days} days for each (${each} of ${f.glued} joints at ${JOINTS_A_DAY} a day, and the cure); all stand only on the days of the tie-ins.`
        : `With one section the heater stands from the first cut to the end of cure: about ${days} days (${f.glued} joints at ${JOINTS_A_DAY} a day, and the cure).`,
    ],
    cautions: ['solvent', 'electric'],
  };
}

/** What was changed, mended and measured, by date; with lines to go on. */
export function historyCard(project: Project): LifeCard {
  const entries = history(project);
  return {
    id: 'history',
    title: 'What was done, and when',
    lines: [
      ...(entries.length === 0
        ? ['Nothing is written down yet. The day it is built is the first line.']
        : entries.map((e) => `${e.date}  ${e.title}${e.text === '' ? '' : `: ${e.text}`}`)),
      '____-__-__  ______________________________________',
      '____-__-__  ______________________________________',
    ],
    cautions: [],
  };
}
