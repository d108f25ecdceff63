import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { FlowValues } from '../results';
import type { FlowBand } from './band';
import type { SolvedFlow } from './flow-basic';
import type { Say } from './say';

/** Notices of the full study: start-up, vacuum breaker, drains, first fill, friction that nobody knows. */
export function studyNotices(
  project: Project,
  solved: SolvedFlow,
  values: FlowValues,
  band: FlowBand,
  say: Say,
): Notice[] {
  return [
    ...startNotices(project, values, say),
    ...breakerNotices(solved, values, say),
    ...drainNotices(values, say),
    ...fillNotices(solved, values, say),
    ...doubtNotices(solved, values, band, say),
    ...assumedNotices(solved, say),
  ];
}

function startNotices(project: Project, values: FlowValues, say: Say): Notice[] {
  const { speed } = project.loop.pump;
  if (!(speed > 0)) return [];
  const out: Notice[] = [];
  for (const s of values.start.sections) {
    const index = project.collector.sections.findIndex((x) => x.id === s.section);
    const name = project.collector.sections[index]?.name ?? s.section;
    const path = `/collector/sections/${index}`;
    if (s.aliveAtSpeed === null) {
      const lack = s.missingLift_m > 0 ? ` Its worst tube lacks ${say(s.missingLift_m, 'head')}.` : '';
      out.push({
        code: 'section-never-fills',
        severity: 'heat',
        path,
        message: `${name} does not fill at any pump speed after standing empty${s.cause ? `: ${s.cause}` : ''}.${lack}`,
        remedy:
          'Lower it, plumb it in series behind a lower section, send all water through the collector while filling, or use a stronger pump.',
      });
    } else if (s.aliveAtSpeed > speed + 1e-9) {
      const keeps =
        s.runsDownToSpeed !== null && s.runsDownToSpeed < speed
          ? ` Once full it runs on down to ${Math.round(s.runsDownToSpeed * 100)} %.`
          : '';
      out.push({
        code: 'section-needs-faster-start',
        severity: 'heat',
        path,
        message: `${name} fills only at ${Math.round(s.aliveAtSpeed * 100)} % of pump speed${s.aliveAt_m3s === null ? '' : ` (${say(s.aliveAt_m3s, 'flow')})`}; the pump is set to ${Math.round(speed * 100)} %.${keeps}`,
        remedy:
          'Start at the higher speed and turn down once all tubes run, or close the bypass while filling.',
      });
    }
  }
  return out;
}

function breakerNotices(solved: SolvedFlow, values: FlowValues, say: Say): Notice[] {
  const breaker = values.vacuumBreaker;
  const tap = solved.assembled.taps.find((t) => t.purpose === 'vacuumBreaker');
  if (!breaker || !tap) return [];
  if (breaker.state === 'none') {
    return [
      {
        code: 'breaker-without-effect',
        severity: 'unsure',
        path: tap.path,
        message:
          'The vacuum breaker sits where it cannot let air into the return headers: it neither protects them nor drains them.',
        remedy: 'Move it to the highest return header or to the top of the return pipe.',
      },
    ];
  }
  if (breaker.state === 'open') {
    const [open, closed] = [breaker.collectorFlowOpen_m3s, breaker.collectorFlowClosed_m3s];
    const cost =
      open !== null && closed !== null
        ? ` The collector gets ${say(open, 'flow')} instead of ${say(closed, 'flow')}.`
        : '';
    return [
      {
        code: 'breaker-open',
        severity: 'heat',
        path: tap.path,
        message: `The vacuum breaker stands open while the pump runs: the pump lifts the water with no help from the return.${cost}`,
        remedy:
          'Move the breaker lower, raise the pressure there by throttling the return at the pool, or run faster.',
      },
    ];
  }
  if (breaker.opensBelowSpeed === null || breaker.margin_Pa === null) return [];
  return [
    {
      code: 'breaker-opens-when-slow',
      severity: 'info',
      path: tap.path,
      message: `The vacuum breaker stays shut with ${say(breaker.margin_Pa, 'pressure')} to spare; under ${Math.round(breaker.opensBelowSpeed * 100)} % of pump speed it opens.`,
    },
  ];
}

function drainNotices(values: FlowValues, say: Say): Notice[] {
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

function fillNotices(solved: SolvedFlow, values: FlowValues, say: Say): Notice[] {
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

function doubtNotices(solved: SolvedFlow, values: FlowValues, band: FlowBand, say: Say): Notice[] {
  const out: Notice[] = [];
  const tubes = band.uncertainLinks.filter((l) => solved.assembled.infos[l].role === 'tube').length;
  if (band.frictionUnknown && tubes > 0) {
    const flow = band.intervals.collectorFlow_m3s;
    out.push({
      code: 'friction-unknown',
      severity: 'unsure',
      path: '/collector',
      message: `${tubes} tubes run between laminar and turbulent flow (Reynolds number 2000 to 4000), where nobody knows their friction; the collector's flow lies between ${say(flow.low, 'flow')} and ${say(flow.high, 'flow')}.`,
      remedy: 'A measured flow settles it.',
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
