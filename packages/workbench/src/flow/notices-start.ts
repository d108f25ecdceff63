import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { FlowValues } from '../results';
import { type Costing, type Finding, withCost } from './costing';
import type { SolvedFlow } from './flow-basic';
import type { Say } from './say';
import type { BreakerStudy } from './start-up';

/** A section with less carries no water [m³/s]. */
const STILL_M3S = 1e-9;

/** Less head than this is less than anybody knows it by [m]. */
export const TRIFLE_M = 0.03;

/** Which sections fill at which pump speed. */
export function startNotices(
  project: Project,
  start: FlowValues['start'],
  flow: readonly { id: string; flow_m3s: number }[],
  say: Say,
  costing: Costing,
): Notice[] {
  const { speed } = project.loop.pump;
  if (!(speed > 0)) return [];
  const out: Notice[] = [];
  for (const s of start.sections) {
    const index = project.collector.sections.findIndex((x) => x.id === s.section);
    const name = project.collector.sections[index]?.name ?? s.section;
    const path = `/collector/sections/${index}`;
    const dry = Math.abs(flow.find((f) => f.id === s.section)?.flow_m3s ?? 0) < STILL_M3S;
    const finding: Finding = dry ? { kind: 'sections' } : { kind: 'without', section: index };
    if (s.aliveAtSpeed === null) {
      const lack = s.missingLift_m > TRIFLE_M ? ` Its worst tube lacks ${say(s.missingLift_m, 'head')}.` : '';
      const notice: Notice = {
        code: 'section-never-fills',
        severity: 'heat',
        path,
        message: `${name} does not fill at any pump speed after standing empty${s.cause ? `: ${s.cause}` : ''}.${lack}`,
        remedy:
          'Lower it, plumb it in series behind a lower section, send all water through the collector while filling, or use a stronger pump.',
      };
      out.push(withCost(notice, costing(finding)));
    } else if (s.aliveAtSpeed > speed + 1e-9) {
      const keeps =
        s.runsDownToSpeed !== null && s.runsDownToSpeed < speed
          ? ` Once full it runs on down to ${Math.round(s.runsDownToSpeed * 100)} %.`
          : '';
      const notice: Notice = {
        code: 'section-needs-faster-start',
        severity: 'heat',
        path,
        message: `${name} fills only at ${Math.round(s.aliveAtSpeed * 100)} % of pump speed${s.aliveAt_m3s === null ? '' : ` (${say(s.aliveAt_m3s, 'flow')})`}; the pump is set to ${Math.round(speed * 100)} %.${keeps}`,
        remedy:
          'Start at the higher speed and turn down once all tubes run, or close the bypass while filling.',
      };
      out.push(withCost(notice, costing(finding)));
    }
  }
  return out;
}

/** What the vacuum breaker does, and what it costs while it stands open. */
export function breakerNotices(
  solved: SolvedFlow,
  { breaker, closedFlow_kgs }: BreakerStudy,
  say: Say,
  costing: Costing,
): Notice[] {
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
    const loss = closedFlow_kgs === null ? null : costing({ kind: 'loop', flow_kgs: closedFlow_kgs });
    const notice: Notice[] = [
      {
        code: 'breaker-open',
        severity: 'heat',
        path: tap.path,
        message: `The vacuum breaker stands open while the pump runs: the pump lifts the water with no help from the return.${cost}`,
        remedy:
          'Move the breaker lower, raise the pressure there by throttling the return at the pool, or run faster.',
      },
    ];
    return notice.map((n) => withCost(n, loss));
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
