import { findPipe, findPipeFamily, pipeFamilies, pipes } from '@sunlap/data/pipes';

export interface PipeChoice {
  id: string;
  family: string;
  nominal: string;
  /** As the trade says it: size, then kind. */
  name: string;
  outer_m: number;
}

const choice = (id: string): PipeChoice | undefined => {
  const pipe = findPipe(id);
  if (pipe === undefined) return undefined;
  const [kind, size] = pipe.label.split(/, (?=[^,]*$)/);
  return {
    id,
    family: pipe.family,
    nominal: pipe.nominal,
    name: `${size ?? pipe.nominal} · ${kind.replace(/^PVC (?=sch|SDR)/, '').replace(/ \(.*\)/, '')}`,
    outer_m: pipe.od_m,
  };
};

export const PIPES: readonly PipeChoice[] = pipes.map((p) => choice(p.id)!);

export const pipeOf = choice;
export const pipeName = (id: string): string => choice(id)?.name ?? id;
export const pipeSize = (id: string): string => choice(id)?.name.split(' · ')[0] ?? id;
/** Outer diameter; half-inch where the table has no such pipe. */
export const outer_m = (id: string): number => findPipe(id)?.od_m ?? 0.0213;
export const familiesOf = (): { id: string; label: string }[] =>
  pipeFamilies.map(({ id, label }) => ({ id, label: findPipeFamily(id)?.label ?? label }));

/** Outside of 50 mm pipe: tees of anything larger stand further apart than the first questions' tubes [m]. */
const MOST_HEADER_m = 0.0505;

/** Header pipe for a pool pipe: the same, or the largest of its kind that the tubes' tees fit. */
export function headerFor(loopPipe: string): string {
  const loop = choice(loopPipe);
  if (loop === undefined || loop.outer_m <= MOST_HEADER_m) return loopPipe;
  const smaller = PIPES.filter((p) => p.family === loop.family && p.outer_m <= MOST_HEADER_m);
  return smaller.reduce((best, p) => (p.outer_m > best.outer_m ? p : best), smaller[0] ?? loop).id;
}
