import { beforeAll, describe, expect, test } from 'vitest';
import { manifold } from '../../src/hydraulics/manifold';
import { prepareNetwork } from '../../src/hydraulics/network';
import { GRAVITY_MS2 } from '../../src/numeric/constants';
import { openPeer, PEER_GRAVITY, peerInput } from './epanet-peer';
import { seeded } from './random-loop';

/** The independent general network solver EPANET, through `epanet-js`. */
describe('random turbulent banks against a general network solver', () => {
  let peer: Awaited<ReturnType<typeof openPeer>>;
  beforeAll(async () => {
    peer = await openPeer();
  });

  const random = seeded(2024);
  const between = (a: number, b: number) => a + (b - a) * random();
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const cases = Array.from({ length: 14 }, (_, k) => {
    const tubes = 2 + Math.floor(random() * 39);
    const tubeBore_m = pick([0.0158, 0.0209]);
    return {
      k,
      tubes,
      tubeBore_m,
      headerBore_m: pick([0.0409, 0.0525]),
      length_m: between(2, 20),
      pitch_m: between(0.02, 0.2),
      inlet: pick(['start', 'both'] as const),
      outlet: pick(['start', 'end', 'both'] as const),
      // mean tube at Re 9000–20000, so that the least stays above 4000
      reynolds: between(9000, 20_000),
    };
  });

  test.each(cases)('bank $k: $tubes tubes, $inlet to $outlet', (c) => {
    const viscosity_Pas = 7.972e-4;
    const density_kgm3 = 995.65;
    const bank = manifold({
      tubes: c.tubes,
      tube: { bore_m: c.tubeBore_m, length_m: c.length_m, roughness_m: 1.5e-6, minorLoss: 1.5 },
      header: { bore_m: c.headerBore_m, length_m: c.pitch_m, roughness_m: 1.5e-6, minorLoss: 0.2 },
      inlet: c.inlet,
      outlet: c.outlet,
      flow_kgs: (c.tubes * c.reynolds * Math.PI * c.tubeBore_m * viscosity_Pas) / 4,
      density_kgm3,
      viscosity_Pas,
      tees: false,
    });
    const ours = prepareNetwork(bank.description).solve();
    expect(ours.report.converged).toBe(true);
    peer.open(peerInput(bank.description));
    peer.run(true);
    const theirs = peer.read(bank.description);
    peer.close();
    const own = bank.tubes.map((i) => ours.flow_kgs[i]!);
    const mean = own.reduce((sum, f) => sum + f, 0) / own.length;
    const least = Math.min(...bank.tubes.map((i) => ours.reynolds[i]!));
    // below Re 4000 the peer bridges friction differently, so such a bank would prove nothing
    expect(least).toBeGreaterThan(4000);
    // verified: 0.1 % of the mean on each tube, 0.1 % on the pressure drop
    for (const [n, i] of bank.tubes.entries())
      expect(Math.abs(own[n]! - theirs.flow_kgs[i]!) / mean).toBeLessThan(1e-3);
    const supply = bank.supply[0]!;
    const collect = bank.collect[c.outlet === 'end' ? c.tubes - 1 : 0]!;
    const drop = (ours.head_m[supply]! - ours.head_m[collect]!) * GRAVITY_MS2;
    const peerDrop = (theirs.head_m[supply]! - theirs.head_m[collect]!) * PEER_GRAVITY;
    expect(Math.abs(drop / peerDrop - 1)).toBeLessThan(1e-3);
  });
});
