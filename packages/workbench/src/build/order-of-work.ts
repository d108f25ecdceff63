import { type JointWay, joinableOf } from '@sunlap/data/joinable';
import { findMaterial } from '@sunlap/data/materials';
import { type Closing, closingOf } from '@sunlap/engine/building/order-closing';
import { pipeMass } from '@sunlap/engine/building/weight';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { PanelGeometry } from '../assembly/geometry';
import type { CutSheet } from './cutting';
import type { Gluing } from './gluing';
import type { HeaderPlan } from './header-plan';
import type { Gathering } from './strand';
import type { SupportPlan } from './support-plan';

/** One step of the work. */
export interface WorkStep {
  readonly id: string;
  readonly title: string;
  readonly lines: readonly string[];
  readonly people: 1 | 2;
  /** Ids of the cautions that belong where the hand is. */
  readonly cautions: readonly string[];
  /** A good place to stop for the night. */
  readonly night: boolean;
  /** Ticked in the file. */
  readonly done: boolean;
}

/** A module that is made several times. */
export interface Module {
  /** JSON pointer to the first of them. */
  readonly path: string;
  readonly names: readonly string[];
  readonly tubes: number;
  readonly tube_m: number;
  readonly closing: Closing;
  /** Tubes and one header, dry [kg]. */
  readonly carried_kg: number;
  /** How its tubes go into the headers. */
  readonly way: JointWay;
  readonly joints: number;
}

/** Allowed difference of tube lengths in one bank [m]: half of what a socket forgives; judgement. */
export const TUBE_TOLERANCE_M = 0.002;

/** Banks alike in every cut: made the same way. */
export function modulesOf(
  project: Pick<Project, 'collector'>,
  geometry: PanelGeometry,
  headers: readonly HeaderPlan[],
  notices: Notice[],
): Module[] {
  const groups = new Map<string, Module & { names: string[] }>();
  for (const bank of geometry.banks) {
    const spec = project.collector.sections[bank.section].banks[bank.bank];
    if (spec.kind !== 'tubes' || !bank.size) continue;
    const name = spec.name ?? spec.id;
    const header = headers.find((h) => h.path === `${bank.path}/gather`);
    const key = [spec.count, spec.length_m, spec.pitch_m, spec.pipe, spec.supply.pipe, spec.gather.pipe].join(
      '|',
    );
    const own = groups.get(key);
    if (own) {
      own.names.push(name);
      continue;
    }
    const tube = joinableOf(spec.pipe);
    const closing = closingOf(spec.count, spec.length_m, bank.size.outer_m, tube?.socket_m ?? 0.02);
    const wall = pipeMass(
      bank.size.outer_m,
      bank.size.bore_m,
      findMaterial(bank.size.material)?.density_kgm3 ?? 1400,
      0,
    ).wall_kgm;
    groups.set(key, {
      path: bank.path,
      names: [name],
      tubes: spec.count,
      tube_m: spec.length_m,
      closing,
      carried_kg: wall * spec.length_m * spec.count,
      way: tube?.way ?? 'cement',
      joints: 2 * spec.count + (header ? 2 * (header.tees - 1) * 2 : 0),
    });
    if (tube?.way === 'cement' && closing.way === 'teeByTee')
      notices.push({
        code: 'build-header-closing',
        severity: 'unsure',
        path: bank.path,
        message: `${name}: ${spec.count} joints would have to close at once within about ${closing.open_s} s of open cement, and the tubes are too short to be bowed in one at a time. A finished second header cannot be pushed on.`,
        remedy:
          'Build the second header up tee by tee: each tee goes onto its tube and onto the nipple before it; or leave one union in the header for each few tubes.',
      });
  }
  return [...groups.values()];
}

/** How the tubes of a pass are put in, by their way of joining. */
function tubeWords(m: Module): string[] {
  const lay = `For ${m.names.join(', ')}: lay the first header against a straight edge,`;
  if (m.way === 'cement')
    return [
      `${lay} glue the tubes in one by one, far ends held on the marking strip.`,
      `Second header: ${m.closing.joints} joints, about ${m.closing.needed_s} s to wet and push against ${m.closing.open_s} s of open cement: ${WAY_TEXT[m.closing.way]}.`,
    ];
  return m.way === 'barb'
    ? [
        `${lay} warm each tube’s end in hot water, push it over its barb to the stop, clamp it; far ends on the marking strip.`,
        'Second header tube by tube in the same way: nothing sets, so there is no hurry. A clamp is tightened again after the first hot day.',
      ]
    : [
        `${lay} cut the tubes square, mark the depth, push each in to its mark; far ends on the marking strip.`,
        'Second header tube by tube in the same way: nothing sets, so there is no hurry. Pull at each tube: one that moves is not in.',
      ];
}

const WAY_TEXT: Record<Closing['way'], string> = {
  atOnce: 'few enough to wet all joints and push the header on in one go',
  bowed: 'tubes are long enough to be bowed in one at a time, from one end to the other',
  teeByTee: 'build this header up tee by tee on the tubes; a finished header cannot be pushed on',
};

/** Primer and cans, before the first joint. */
function glueWords(g: Gathering, gluing: Gluing): string[] {
  if (gluing.glued === 0) return [];
  return [
    g.options.primer
      ? 'Primer first, then cement, both ends of each joint; read on the can what it asks for your pipe.'
      : 'Without primer the pipe’s skin is not softened before the cement: a joint that leaks or pulls out is likelier, and many local codes ask for primer. Ask yours before you begin.',
    gluing.workingCan
      ? 'Work from a small can and refill it from the large one: an open can thickens within the hour, and cement that no longer runs is thrown away.'
      : 'Shut the can between joints; cement that no longer runs is thrown away.',
  ];
}

/** The work in its order, with counts, waits, and who is needed. */
export function workSteps(
  g: Gathering,
  project: Pick<Project, 'collector' | 'units' | 'build'>,
  headers: readonly HeaderPlan[],
  modules: readonly Module[],
  sheets: readonly CutSheet[],
  supports: SupportPlan,
  gluing: Gluing,
): WorkStep[] {
  const { say } = g;
  const cuts = sheets.reduce((sum, s) => sum + s.plan.sawCuts, 0);
  const roof = project.collector.placement.mounting === 'roof';
  const hours = (s: number | null): string =>
    s === null
      ? 'as the can says (the air is outside the tables)'
      : s < 5400
        ? `${Math.round(s / 60)} min`
        : `${(s / 3600).toFixed(0)} h`;
  const steps: Omit<WorkStep, 'done'>[] = [];
  steps.push({
    id: 'measure',
    title: 'Measure what you bought',
    lines: [
      'Measure G (centre to socket bottom) and S (socket depth) on three tees of each size, and write them in: every nipple follows from them.',
      ...(headers.length > 0
        ? [
            `Tees 1/8 in longer than the standard would carry the last tube of ${headers[0].name} ${say(headers[0].mouldingError_m, 'smallLength')} away.`,
          ]
        : []),
      'Check the pipe’s print: family, size, date. Keep what is chalky or crazed for stakes.',
      ...glueWords(g, gluing),
    ],
    people: 1,
    cautions: [],
    night: false,
  });
  steps.push({
    id: 'cut',
    title: `Cut: ${cuts} cuts`,
    lines: [
      'Cut from the plan, longest first, against a stop so that equal pieces are equal; mark each with its place; save the offcuts that the plan names.',
      `Tubes of one pass within ${say(TUBE_TOLERANCE_M, 'diameter')} of each other. Deburr inside and out.`,
      'Leave the pieces marked “on site” until their place is there to be measured.',
    ],
    people: 1,
    cautions: [],
    night: true,
  });
  if (supports.rows.length > 0)
    steps.push({
      id: 'supports',
      title: 'Set the supports',
      lines: [
        `${supports.rows.reduce((n, r) => n + r.lines_m.length, 0)} lines, ${supports.straps} straps; heights by string or level to ${say(project.collector.supports.heightError_m, 'diameter')}.`,
        `What they carry, filled: ${say(supports.filled_kg, 'mass')}. Their strength, the roof’s and the anchors’ are for local code or an engineer.`,
      ],
      people: 1,
      cautions: roof ? ['fall', 'roofLoad'] : ['digging', 'roofLoad'],
      night: true,
    });
  const kinds = new Map<string, HeaderPlan[]>();
  for (const h of headers) {
    const key = `${h.tee.part}|${h.tees}|${h.pitch_m}`;
    kinds.set(key, [...(kinds.get(key) ?? []), h]);
  }
  for (const [, same] of kinds) {
    const h = same[0];
    steps.push({
      id: `header-${h.path}`,
      title: `Make ${same.length} ${same.length === 1 ? 'header' : 'headers'} of ${h.tees} ${h.tees === 1 ? 'tee' : 'tees'}`,
      lines: [
        `For ${same.map((x) => x.name).join('; ')}.${new Set(same.map((x) => `${x.leadIn_m}|${x.open.join()}`)).size > 1 ? ' They differ in their ends: see the drawing of each.' : ''}`,
        h.tees > 1
          ? `Each ${h.tees} × ${h.tee.label}; ${h.tees - 1} ${h.tees === 2 ? 'nipple' : 'nipples'} of ${say(h.nipple_m, 'diameter')}; pitch ${say(h.pitch_m, 'diameter')}.`
          : `Each 1 × ${h.tee.label}.`,
        `On the jig: pegs at the marks of the strip, all branches flat on the board.${h.twistPerDegree_m > 0 ? ` A tee twisted by 1° puts the tube’s far end off by ${say(h.twistPerDegree_m, 'smallLength')}.` : ''}`,
        `Without a jig 1 mm in each step grows to ${say(h.errorInRow_m, 'diameter')} at the last tube.`,
      ],
      people: 1,
      cautions: h.way === 'cement' ? ['solvent'] : [],
      night: true,
    });
  }
  for (const m of modules)
    steps.push({
      id: `module-${m.path}`,
      title:
        m.names.length > 1
          ? `Make ${m.names.length} of this pass: ${m.tubes} tubes`
          : `Make the pass ${m.names[0]}: ${m.tubes} tubes`,
      lines: [
        ...tubeWords(m),
        `${say(m.carried_kg, 'mass')} dry without its second header; it whips: carry it flat on a plank or ladder.`,
      ],
      people: 2,
      cautions: [...(m.way === 'cement' ? ['solvent'] : []), ...(roof ? ['fall'] : [])],
      night: true,
    });
  steps.push({
    id: 'join',
    title: 'Place the passes, join them, plumb feed and return',
    lines: [
      'One anchor on each pass, guides elsewhere; headers free to move; no strap tight on a tube.',
      'Cut the “on site” pieces now, dry-fit, mark both sides of each joint, then glue.',
      'Vents and breakers at the top, drains at the lowest points, valves where a hand reaches them.',
    ],
    people: 2,
    cautions: ['solvent', 'electric', ...(roof ? ['fall'] : [])],
    night: false,
  });
  if (gluing.glued > 0)
    steps.push({
      id: 'cure',
      title: `Wait: set ${hours(gluing.longestSet_s)}, cure ${hours(gluing.longestCure_s)}`,
      lines: [
        `For ${gluing.glued} glued joints at ${say(g.options.glueAir_C, 'temperature')}. Half as long again in damp air; longer for hot water.`,
      ],
      people: 1,
      cautions: [],
      night: true,
    });
  steps.push({
    id: 'test',
    title: 'Test with water only',
    lines: [
      'Fill slowly from the lowest point with the vents open until water comes at each; close them from the bottom up.',
      'Let it stand full with the pump off and look at every joint with a dry cloth; then with the pump at low speed, then at the speed of every day.',
      'Each pass by itself before they are joined, where you can: a leak is found among few joints.',
    ],
    people: 1,
    cautions: ['noAirTest', 'scald', 'deadHead'],
    night: false,
  });
  const done = new Set(project.build?.done);
  return steps.map((step) => ({ ...step, done: done.has(step.id) }));
}
