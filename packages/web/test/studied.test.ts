import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { setLength } from '../src/edits/panel';
import { keepSame, sameDays, sameStudy } from '../src/shape/studied';
import { setPrice } from '../src/sheets/build/shop-edits';
import { setMeasured, setOnHand } from '../src/sheets/build/stock';
import type { Doc } from '../src/store/doc';
import { quinceDoc } from './examples';

const doc = quinceDoc();
const but = (change: (p: Project) => Project): Doc => ({ ...doc, project: change(doc.project) });
const line = { part: 'elbow', group: 'fittings' } as unknown as Parameters<typeof setPrice>[1];

describe('what flow and heat are asked for', () => {
  it('stays the same while prices, ticks, the stock, the log and the name change', () => {
    const changes: ((p: Project) => Project)[] = [
      (p) => setPrice(p, line, { holds: 1 }, 2.5, '2026-05-01'),
      (p) => setOnHand(p, 'pvc-sch40-1/2', 1.2, 3),
      (p) => ({ ...p, name: 'Another name' }),
      (p) => ({ ...p, testDays: [...p.testDays] }),
      (p) => ({ ...p, build: { tool: 'ratchet', done: ['first'] } }),
    ];
    for (const change of changes) expect(sameStudy(doc, but(change))).toBe(true);
  });

  it('changes with the panel, the loop, the place, the moment and measured tees', () => {
    const others: Doc[] = [
      but((p) => ({ ...p, collector: setLength(p.collector, null, 5) })),
      but((p) => ({ ...p, loop: { ...p.loop } })),
      but((p) => ({ ...p, site: { ...p.site, latitude_deg: 20 } })),
      but((p) => ({ ...p, units: 'metric' })),
      but((p) => ({ ...p, yard: undefined })),
      // other lengths are coupled elsewhere
      but((p) =>
        setPrice(p, { ...line, part: 'pvc-sch40-1/2', length_m: 3 }, { holds: 1 }, 2.5, '2026-05-01'),
      ),
      but((p) => ({ ...p, build: { ...p.build, unions: !p.build?.unions } })),
      // a repair may leave a tube plugged
      but((p) => ({ ...p, repairs: [...p.repairs] })),
      but((p) => setMeasured(p, 'reducingTee-1x1/2', 'takeOff_m', 0.02)),
      { ...doc, moment: { ...doc.moment, water_C: 30 } },
    ];
    for (const other of others) expect(sameStudy(doc, other)).toBe(false);
  });

  it('is the older document for as long as both are the same', () => {
    const older = keepSame(sameStudy);
    expect(older(doc)).toBe(doc);
    expect(older(but((p) => ({ ...p, name: 'Two' })))).toBe(doc);
    const longer = but((p) => ({ ...p, collector: setLength(p.collector, null, 5) }));
    expect(older(longer)).toBe(longer);
    expect(older(doc)).toBe(doc);
  });
});

describe('what a test day is judged by', () => {
  it('is not what things cost, but the log and the states', () => {
    const { project } = doc;
    expect(sameDays(project, { ...project, prices: undefined, stock: undefined })).toBe(true);
    expect(sameDays(project, { ...project, testDays: [...project.testDays] })).toBe(false);
    expect(sameDays(project, { ...project, asBuilt: [...project.asBuilt] })).toBe(false);
  });
});
