import type { Notice } from '@sunlap/engine/numeric/notice';
import type { FlowValues } from '../results';
import type { FlowBand } from './band';
import type { SolvedFlow } from './flow-basic';
import type { Say } from './say';

/** Notices of the full study: drains, first fill, friction that nobody knows. */
export function studyNotices(solved: SolvedFlow, values: FlowValues, band: FlowBand, say: Say): Notice[] {
  return [
    ...drainNotices(values, say),
    ...fillNotices(solved, values, say),
    ...doubtNotices(solved, values, band, say),
    ...assumedNotices(solved, say),
  ];
}

/** Does the collector empty itself? */
export function drainNotices(values: FlowValues, say: Say): Notice[] {
  const { ok, litresLeft, where } = values.collector.drains;
  if (ok) return [];
  return [
    {
      code: 'does-not-drain',
      severity: 'unsure',
      path: '/collector',
      message: `The collector does not empty itself: ${say(litresLeft / 1000, 'volume')} stay in ${where.slice(0, 4).join(', ')}${where.length > 4 ? ' and more' : ''}. Frost bursts what stays full.`,
      remedy:
        'Give tubes a fall of four times sag over span, headers too, towards a drain or the pool, and let air in at the top; or blow it out with open ends before frost.',
    },
  ];
}

/** Where air leaves on the first fill. */
export function fillNotices(solved: SolvedFlow, values: FlowValues, say: Say): Notice[] {
  const highest = solved.assembled.geometry.highest_m;
  const vents = solved.assembled.taps.filter((t) => t.purpose !== 'drain');
  const top = vents.reduce((h, t) => Math.max(h, t.height_m), -Infinity);
  if (values.firstFill.minutes === null || highest - top < 0.05) return [];
  return [
    {
      code: 'first-fill-traps-air',
      severity: 'info',
      path: '/collector/taps',
      message:
        vents.length === 0
          ? 'There is no vent on the collector: on the first fill all air must leave through the outlets in the pool.'
          : `The highest vent lies ${say(highest - top, 'length')} under the collector's top: air above it must leave through the outlets.`,
      remedy: 'Put a bleed at the highest return header.',
    },
  ];
}

/** What nobody knows of these flows, and what did not come out. */
export function doubtNotices(solved: SolvedFlow, values: FlowValues, band: FlowBand, say: Say): Notice[] {
  const out: Notice[] = [];
  const tubes = band.uncertainLinks.filter((l) => solved.assembled.infos[l].role === 'tube').length;
  if (band.frictionUnknown && tubes > 0) {
    const { low, high } = band.intervals.collectorFlow_m3s;
    const [least, most] = [say(low, 'flow'), say(high, 'flow')];
    // a band narrower than its digits is none
    const moves = least !== most;
    out.push({
      code: 'friction-unknown',
      severity: moves ? 'unsure' : 'info',
      path: '/collector',
      message: `${tubes} tubes run between laminar and turbulent flow (Reynolds number 2000 to 4000), where nobody knows their friction; ${moves ? `the collector’s flow lies between ${least} and ${most}` : 'the collector’s flow hardly hangs on it'}.`,
      ...(moves ? { remedy: 'A measured flow settles it.' } : {}),
    });
  }
  if (band.failed.length > 0) {
    out.push({
      code: 'rivals-unsolved',
      severity: 'unsure',
      path: '',
      message: `The bands leave out what did not converge: ${band.failed.join('; ')}.`,
    });
  }
  const other = solved.solution.network.other;
  if (other) {
    const density = solved.assembled.description.referenceDensity_kgm3;
    out.push({
      code: 'two-solutions',
      severity: 'unsure',
      path: '/collector',
      message: `The loop can run in two ways: with ${say(values.collectorFlow_m3s, 'flow')} or with ${say(other.flow_kgs[solved.assembled.collectorLink] / density, 'flow')} through the collector.`,
    });
  }
  if (!solved.solution.converged) {
    out.push({
      code: 'not-solved',
      severity: 'unsure',
      path: '',
      message: `The flows do not settle and are not to be trusted. ${solved.solution.message}`,
      remedy: 'Look at the place named first; an extreme size or height there is the usual cause.',
    });
  }
  return out;
}

function assumedNotices(solved: SolvedFlow, say: Say): Notice[] {
  const list = solved.assembled.assumed;
  if (list.length === 0) return [];
  const length = list.reduce((sum, a) => sum + a.length_m, 0);
  return [
    {
      code: 'pipe-assumed',
      severity: 'info',
      path: list[0].path,
      message: `${list.length} connections between sections are not drawn; straight pipe with two elbows is assumed for each, ${say(length, 'length')} in all.`,
      remedy: 'Draw the pipes before and after the sections.',
    },
  ];
}
