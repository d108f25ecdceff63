import type { PanelBank, PanelInput, PanelSection } from '../src/panelPlan';
import type { PanelData, PanelFrame } from '../src/panelSheet';

export const bank = (id: string, change: Partial<PanelBank> = {}): PanelBank => ({
  id,
  kind: 'tubes',
  across_m: 0,
  shift_m: 0,
  along_m: 0,
  depth_m: 0,
  count: 4,
  length_m: 3,
  pitch_m: 0.1,
  tubeDiameter_m: 0.021,
  supplyDiameter_m: 0.048,
  gatherDiameter_m: 0.048,
  ...change,
});

export const section = (id: string, change: Partial<PanelSection> = {}): PanelSection => ({
  id,
  u_m: 0,
  v_m: 0,
  angle_deg: 0,
  inletSide: 'near',
  inletEnds: ['first'],
  outletEnds: ['last'],
  banks: [bank(`${id}1`), bank(`${id}2`, { across_m: 0.5 })],
  handovers: [[{ from: 'last', to: 'first' }]],
  ...change,
});

export const panel = (sections: PanelSection[] = [section('A')], facing_deg = 180): PanelInput => ({
  sections,
  facing_deg,
});

/** Shares fall and water warms from tube to tube, so that every tube differs. */
export const dataFor = (input: PanelInput): PanelData => ({
  fullFlow_m3s: 0.001,
  tubes: input.sections.flatMap((s) =>
    s.banks.flatMap((b) =>
      Array.from({ length: b.count }, (_, i) => ({
        section: s.id,
        bank: b.id,
        position: i + 1,
        look: i === 2 ? ('blocked' as const) : ('full' as const),
        holdsAir: i === 3,
        share: i === 2 ? 0 : 1.2 - 0.1 * i,
        heat: [
          { at: 0, heat: 0 },
          { at: 1, heat: 0.5 + 0.1 * i },
        ],
      })),
    ),
  ),
  headers: input.sections.flatMap((s) =>
    s.banks.flatMap((b) => [
      { section: s.id, bank: b.id, header: 'supply' as const, flow_m3s: [0.001, 0.0007, 0.0004], heat: 0 },
      { section: s.id, bank: b.id, header: 'gather' as const, flow_m3s: [0.0003, 0.0006, 0.001], heat: 0.8 },
    ]),
  ),
});

export const frame = (change: Partial<PanelFrame> = {}): PanelFrame => ({
  width: 800,
  height: 400,
  margin: { left: 100, right: 60, top: 80, bottom: 50 },
  mode: 'heat',
  leastPitch: 12,
  trueScale: false,
  dimensionGap: 50,
  countGap: 70,
  numberGap: 25,
  ...change,
});
