import { describe, expect, it } from 'vitest';
import { build } from '../../src/build/build';
import { exampleProject } from '../season/examples';

describe('a header’s lead with a tap in it', () => {
  const quince = exampleProject('quince-yard');
  const withLead = (leadIn_m: number) => {
    const sections = quince.collector.sections.map((s) => ({
      ...s,
      banks: s.banks.map((b, k) =>
        b.kind === 'tubes' && k === s.banks.length - 1 ? { ...b, gather: { ...b.gather, leadIn_m } } : b,
      ),
    }));
    return build({ ...quince, collector: { ...quince.collector, sections } });
  };

  it('parts where the tap needs it: long enough in all, it lacks nothing', () => {
    const short = (lead: number) => withLead(lead).notices.filter((n) => n.code === 'build-no-room');
    expect(short(0.45)).toHaveLength(0);
    const tight = short(0.1);
    expect(tight.length).toBeGreaterThan(0);
    expect(tight[0].message).toContain('too short for its fittings');
  });

  it('keeps the length that it has been drawn with', () => {
    const leadPipe = (lead: number) =>
      withLead(lead)
        .result.pieces.filter((c) => c.label.startsWith('Lead-out'))
        .reduce((sum, c) => sum + c.length_m * c.count, 0);
    // three sections, each 100 mm longer
    expect(leadPipe(0.55) - leadPipe(0.45)).toBeCloseTo(0.3, 6);
  });
});
