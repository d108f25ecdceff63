import { describe, expect, it } from 'vitest';
import { quickStudy } from '../src/compute/quick';
import { heatScale, panelData } from '../src/shape/panelInput';
import { quinceDoc } from './examples';

describe('colours of the panel’s water', () => {
  const doc = quinceDoc();
  const study = quickStudy(doc);
  const tubes = study.heat!.result.banks.flatMap((b) => b.tubes);

  it('go from the coolest to the warmest water that moves, not to that of a plugged tube', () => {
    const scale = heatScale(study);
    const stands = Math.max(...tubes.flatMap((t) => t.profile_C));
    expect(stands).toBeGreaterThan(scale.high_C + 3);
    const drawn = panelData(study, scale).tubes.filter((t) => t.look === 'full');
    const heats = drawn.flatMap((t) => t.heat.map((h) => h.heat));
    expect(Math.min(...heats)).toBeCloseTo(0, 1);
    expect(Math.max(...heats)).toBeCloseTo(1, 1);
  });

  it('fall back on standing water where none moves', () => {
    const still = quickStudy({
      ...doc,
      project: {
        ...doc.project,
        loop: { ...doc.project.loop, pump: { ...doc.project.loop.pump, speed: 0 } },
      },
    });
    const scale = heatScale(still);
    expect(scale.high_C).toBeGreaterThan(scale.low_C);
    expect(Number.isFinite(scale.at(30))).toBe(true);
  });
});
