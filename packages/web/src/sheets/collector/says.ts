import { edges } from '@sunlap/drawing/panelPlan';
import type { Project } from '@sunlap/project/schema/project';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { TubeFlow } from '@sunlap/workbench/results';
import type { Study } from '../../compute/usecases';
import { joining } from '../../edits/plumbing';
import { plugOf } from '../../edits/tubes';
import { standsStill } from '../../parts/runs';
import { pipeName } from '../../shape/pipes';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';

/** How one tube is, a plugged one with the day of its repair. */
export function stateWords(
  project: Project,
  section: string,
  bank: string,
  tube: Pick<TubeFlow, 'position' | 'state'>,
): string {
  const plug = plugOf(project, section, bank, tube.position);
  return plug === null ? t.tube.state[tube.state] : t.tube.plugged(plug.date);
}

/** What the panel drawing says, for those who do not see it. */
export function panelSays(project: Project, study: Study | null, u: UnitSystem): string {
  const { collector } = project;
  const e = edges(collector.placement.facing_deg);
  const parts = [
    `${t.chip.sections(collector.sections.length)}${collector.sections.length > 1 ? `, ${t.options[joining(collector.plumbing)]}` : ''}. ` +
      t.says.upSlope(e.top, e.left),
  ];
  for (const s of collector.sections) {
    const b = s.banks[0];
    const tubes = b.kind === 'rated' ? '' : t.says.tubesOf(pipeName(b.pipe));
    parts.push(
      `${s.name ?? s.id}: ${t.chip.passes(s.banks.length)} of ${b.count} × ${say(b.length_m, 'length', u)}${tubes}.`,
    );
  }
  const still = study === null ? null : standsStill(study);
  if (still !== null) return `${parts.join(' ')} ${still[0].toUpperCase()}${still.slice(1)}.`;
  for (const b of study?.flow.result.collector.banks ?? []) {
    const heat = study?.heat?.result.banks.find((h) => h.section === b.section && h.id === b.id);
    const odd = b.tubes.filter((x) => x.state !== 'full');
    parts.push(
      `${b.name}: ${say(b.flow_m3s, 'flow', u)}, ${t.says.carry(Math.round(b.leastOverMean * 100), Math.round(b.mostOverMean * 100))}` +
        (heat === undefined
          ? ''
          : t.says.water(say(heat.inlet_C, 'temperature', u), say(heat.outlet_C, 'temperature', u))) +
        (odd.length === 0
          ? '.'
          : `; ${odd.map((x) => t.says.tube(x.position, stateWords(project, b.section, b.id, x))).join(', ')}.`),
    );
  }
  return parts.join(' ');
}
