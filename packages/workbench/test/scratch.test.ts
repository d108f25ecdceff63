import { it } from 'vitest';
import { readFileSync } from 'node:fs';
import { heatBasic } from '../src/heat/heat-basic';
import { createHeatCache } from '../src/heat/solve-heat';
it('examples', () => {
  for (const [f, at] of [['quince-yard', '2026-04-12T11:00'], ['tern-roof', '2026-11-12T11:00']]) {
    const p = JSON.parse(readFileSync(`examples/${f}.json`, 'utf8'));
    const cache = createHeatCache();
    const a = heatBasic(p, { at }, { cache });
    const { banks, ...rest } = a.result;
    console.log(f, a.solver, rest, banks.map((b) => [b.id, b.heat_W, b.inlet_C, b.outlet_C, b.tubes.map((t) => t.outlet_C.toFixed(2)).join(' ')]), banks[0].tubes[0].profile_C);
    for (let i = 0; i < 20; i++) heatBasic(p, { at }, { cache, day: false });
    const t = performance.now(); for (let i = 0; i < 20; i++) heatBasic(p, { at }, { cache, day: false }); console.log('warm ms', (performance.now() - t)/20);
  }
}, 300000);
