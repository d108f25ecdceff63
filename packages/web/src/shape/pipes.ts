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
