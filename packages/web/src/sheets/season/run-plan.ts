import type { Project } from '@sunlap/project/schema/project';
import type { RunPlan } from '@sunlap/project/schema/season';
import { planOf, withSeason } from './fields';

export type HourPlan = Extract<RunPlan, { kind: 'hours' }>;
export type ControllerPlan = Extract<RunPlan, { kind: 'controller' }>;
type Month = HourPlan['months'][number];

const STEP_H = 0.5;
const snap = (hour: number): number => Math.min(24, Math.max(0, Math.round(hour / STEP_H) * STEP_H));

/** Changes the plan by hand; a controller's plan stays what it is. */
function withHours(project: Project, change: (plan: HourPlan) => HourPlan): Project {
  const plan = planOf(project);
  return plan.kind === 'hours' ? withSeason(project, { run: change(plan) }) : project;
}

export const withMonth = (project: Project, month: number, change: Partial<Month>): Project =>
  withHours(project, (plan) => ({
    ...plan,
    months: plan.months.map((m, k) => (k === month ? { ...m, ...change } : m)),
  }));

/** Pulls one end of a month's hours; the other end is not passed. */
export function pulled(project: Project, month: number, end: 'from_h' | 'to_h', hour: number): Project {
  const plan = planOf(project);
  if (plan.kind !== 'hours') return project;
  const { from_h, to_h } = plan.months[month];
  const at = snap(hour);
  return withMonth(
    project,
    month,
    end === 'from_h' ? { from_h: Math.min(at, to_h - STEP_H) } : { to_h: Math.max(at, from_h + STEP_H) },
  );
}

/** The hours of one month in every month that runs. */
export const sameEverywhere = (project: Project, month: number): Project =>
  withHours(project, (plan) => {
    const { from_h, to_h } = plan.months[month];
    return { ...plan, months: plan.months.map((m) => (m.on ? { ...m, from_h, to_h } : m)) };
  });

export const withController = (project: Project, change: Partial<ControllerPlan>): Project => {
  const plan = planOf(project);
  return plan.kind === 'controller' ? withSeason(project, { run: { ...plan, ...change } }) : project;
};
