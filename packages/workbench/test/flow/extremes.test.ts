import { readFileSync } from 'node:fs';
import { createRandom } from '@sunlap/engine/numeric/random';
import { type Project, projectSchema } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { structureNotices } from '../../src/check/structure';
import { flowBasic } from '../../src/flow/flow-basic';
import { sayIn } from '../../src/flow/say';
import { heatBasic } from '../../src/heat/heat-basic';

const VALUES = [0, 1e-6, 0.01, 0.5, 1, 3, 40, 1e4, -1, -0.2, 89.9];

/** All places in a file that hold a number. */
function numbersIn(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value === 'number') return [path];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, [...path, key]));
}

function set(target: Record<string, unknown>, path: readonly (string | number)[], value: number): void {
  let at = target;
  for (const key of path.slice(0, -1)) at = at[key] as Record<string, unknown>;
  at[path[path.length - 1]] = value;
}

describe.each(['quince-yard', 'tern-roof'])('%s with any number changed to an extreme', (name) => {
  const text = readFileSync(new URL(`../../../../examples/${name}.json`, import.meta.url), 'utf8');
  const places = numbersIn(JSON.parse(text)).filter(
    ([top]) => top === 'collector' || top === 'loop' || top === 'pool' || top === 'site',
  );

  it('never throws at a person and never says NaN', () => {
    const random = createRandom(name.length);
    let tried = 0;
    for (let run = 0; run < 70; run++) {
      const changed = JSON.parse(text);
      const place = places[Math.floor(random() * places.length)];
      const value = VALUES[Math.floor(random() * VALUES.length)];
      set(changed, place, value);
      if (!projectSchema.safeParse(changed).success) continue;
      tried++;
      const p = changed as Project;
      const at = `${place.join('/')} = ${value}`;
      const flow = flowBasic(p);
      expect(JSON.stringify(flow), at).not.toMatch(/NaN/);
      expect(Number.isFinite(flow.result.flow_m3s), at).toBe(true);
      if (!flow.solver.converged) expect(flow.solver.worst, at).toMatch(/\w{4}/);
      const heat = heatBasic(p, { at: '2026-04-12T11:00' }, { day: false });
      expect(Number.isFinite(heat.result.heat_W), at).toBe(true);
      expect(Number.isFinite(heat.result.dryStanding_C), at).toBe(true);
      for (const n of structureNotices(p, STANDARD_TABLES, sayIn('us'))) {
        expect(n.message, at).not.toMatch(/NaN|undefined/);
      }
    }
    expect(tried).toBeGreaterThan(25);
  });
});
