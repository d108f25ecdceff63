import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { fallingPoints } from '../assembly/pump-link';
import type { Say } from '../flow/say';

/** Rise from shut-off to the top of the curve that counts as a droop rather than a mistake; judgement. */
const DROOP = 0.05;

/** A pump curve that rises is a mistake of typing; one that droops near shut-off is a real pump's. */
export function pumpCurveNotices(project: Project, say: Say): Notice[] {
  const { curve } = project.loop.pump;
  if (curve.kind !== 'points') return [];
  const { points } = curve;
  const out: Notice[] = [];
  const kept = fallingPoints(points);
  const dropped = points.filter((p) => !kept.some((k) => k.flow_m3s === p.flow_m3s && k.head_m === p.head_m));
  if (dropped.length === 0) return out;
  const sorted = [...points].sort((a, b) => a.flow_m3s - b.flow_m3s);
  const top = Math.max(...points.map((p) => p.head_m));
  const i = points.indexOf(dropped[0]);
  const droop = sorted[0] === dropped[0] && dropped.length === 1 && top - dropped[0].head_m <= DROOP * top;
  out.push(
    droop
      ? {
          code: 'pump-curve-droops',
          severity: 'info',
          path: `/loop/pump/curve/points/${i}`,
          message: `The pump's head falls towards shut-off, by ${say(top - dropped[0].head_m, 'head')}: with two flows for one head it may hunt there.`,
        }
      : {
          code: 'pump-curve-rises',
          severity: 'unsure',
          path: `/loop/pump/curve/points/${i}`,
          message: `The pump curve must fall with flow. At ${say(dropped[0].flow_m3s, 'flow')} it gives ${say(dropped[0].head_m, 'head')}, which does not fit its neighbours; ${dropped.length === 1 ? 'that point is' : `${dropped.length} points are`} left out.`,
          remedy: 'Check flow and head of each point.',
        },
  );
  return out;
}
