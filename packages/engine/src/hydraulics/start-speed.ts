import { DomainError } from '../numeric/errors';
import type { NetworkDescription, NetworkSolution } from './network-types';

/**
 * The same network with its pumps at another speed.
 *
 * @param network description
 * @param pumps   places of the pump links that turn together
 * @param speed   over the speed of their curves [–], ≥ 0
 * @throws {DomainError} when a link is no pump, or the speed is negative
 */
export function withPumpSpeed(
  network: NetworkDescription,
  pumps: readonly number[],
  speed: number,
): NetworkDescription {
  if (!(speed >= 0 && speed < Infinity)) throw new DomainError('pump speed', speed, '[0, ∞)');
  const links = [...network.links];
  for (const pump of pumps) {
    const link = links[pump];
    if (link?.law.kind !== 'pump') throw new DomainError('pump link', link?.id ?? pump, 'a pump');
    links[pump] = { ...link, law: { ...link.law, speed } };
  }
  return { ...network, links };
}

/** Flow through pumps that stand side by side [m³/s]. */
export function pumpedFlow(
  network: NetworkDescription,
  pumps: readonly number[],
  solution: NetworkSolution,
): number {
  let flow = 0;
  for (const pump of pumps)
    flow += solution.flow_kgs[pump]! / (network.links[pump]!.density_kgm3 ?? network.referenceDensity_kgm3);
  return flow;
}
