import type { Joinable } from '@sunlap/data/joinable';
import { type FittingSpec, simpleFitting } from './strand';

const VALVE_WORD: Record<string, string> = {
  ball: 'Ball valve',
  gate: 'Gate valve',
  globe: 'Globe valve',
  butterfly: 'Butterfly valve',
  diverter: 'Three-way diverter',
  needle: 'Needle valve',
};

export function valveOf(pipe: Joinable, type: string): FittingSpec {
  const spec = simpleFitting('valve', pipe, type === 'diverter' ? 3 : 2, 0, VALVE_WORD[type] ?? 'Valve');
  const part = type === 'diverter' ? `diverter-${pipe.pipe.nominal}` : `${type}Valve-${pipe.pipe.nominal}`;
  return { ...spec, part, kind: type === 'diverter' ? 'diverter' : 'valve' };
}

export function checkOf(pipe: Joinable): FittingSpec {
  return {
    ...simpleFitting('checkValve', pipe, 2, 0, 'Check valve'),
    part: `checkValve-${pipe.pipe.nominal}`,
  };
}
