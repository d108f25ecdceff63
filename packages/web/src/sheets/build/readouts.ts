import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { BuildValues } from '@sunlap/workbench/build/build';
import { against, quantity, type Readout } from '../../parts/readout';
import { say } from '../../shape/quantity';
import { b } from '../../text/build';
import { o } from '../../text/own';
import type { WhyText } from '../../text/why';

const whole = (unit: string) => (value: number) => ({
  number: Math.round(value).toLocaleString('en', { useGrouping: 'min2' }),
  unit,
});

const moved = (now: number, held: number | undefined, unit: string): string | undefined => {
  if (held === undefined) return undefined;
  const d = Math.round(now - held);
  return d === 0
    ? undefined
    : `${d > 0 ? '▲' : '▼'} ${Math.abs(d).toLocaleString('en', { useGrouping: 'min2' })} ${unit}`.trim();
};

/** Money with its currency, to the cent under a hundred. */
export const money = (value: number, currency: string): string =>
  `${value.toLocaleString('en', { useGrouping: 'min2', minimumFractionDigits: value < 100 ? 2 : 0, maximumFractionDigits: value < 100 ? 2 : 0 })}\u00A0${currency}`;

const barsOf = (v: BuildValues): number =>
  v.cutting.reduce((sum, s) => sum + s.plan.bars.reduce((n, bar) => n + bar.bars, 0), 0);

function costSub(v: BuildValues): string {
  const { demo, unpriced } = v.shopTotal;
  if (unpriced > 0) return b.read.unpriced(unpriced);
  return demo > 0 ? b.read.demo(demo) : b.read.ownPrices;
}

/** @param awaits heat of the moment is still worked out */
export function buildReadouts(
  v: BuildValues,
  held: BuildValues | null,
  u: UnitSystem,
  awaits: boolean,
): Readout[] {
  const { counts } = v;
  const kerf = v.cutting[0]?.kerf_m ?? 0;
  return [
    {
      id: 'cost',
      label: b.read.cost,
      value: v.shopTotal.cost,
      write: whole(v.currency),
      sub: costSub(v),
      difference: moved(v.shopTotal.cost, held?.shopTotal.cost, v.currency),
      first: true,
    },
    {
      id: 'cuts',
      label: b.read.cuts,
      value: counts.sawCuts,
      write: whole(''),
      sub: b.read.kerf(say(kerf, 'diameter', u)),
      difference: moved(counts.sawCuts, held?.counts.sawCuts, ''),
    },
    {
      id: 'joints',
      label: b.read.joints,
      value: counts.gluedJoints,
      write: whole(''),
      sub: counts.dryJoints > 0 ? b.read.dry(counts.dryJoints) : b.read.noDry,
      difference: moved(counts.gluedJoints, held?.counts.gluedJoints, ''),
    },
    {
      id: 'weight',
      label: b.read.weight,
      value: v.supports.filled_kg,
      write: quantity('mass', u),
      sub: b.read.perSupport(say(v.supports.perSupport_N / 9.80665, 'mass', u)),
      difference: against(v.supports.filled_kg, held?.supports.filled_kg, 'mass', u),
    },
    {
      id: 'pipe',
      label: b.read.pipe,
      value: counts.pipe_m,
      write: quantity('length', u),
      sub: b.read.bars(barsOf(v)),
      difference: against(counts.pipe_m, held?.counts.pipe_m, 'length', u),
    },
    {
      id: 'perHeat',
      label: b.read.perHeat,
      value: v.money.price_perkW,
      write: whole(v.currency),
      awaits: awaits && v.money.price_perkW === null,
      sub:
        awaits && v.money.price_perkW === null
          ? o.heatAwaited
          : v.money.heatNow_kW === null || v.money.price_perkW === null
            ? b.read.noHeat
            : b.read.heatNow(say(v.money.heatNow_kW * 1000, 'heatRate', u)),
    },
  ];
}

export function buildWhy(v: BuildValues, u: UnitSystem): (id: string) => WhyText | null {
  const inputs: Record<string, [string, string][]> = {
    cost: v.money.inputs.map((line): [string, string] => {
      const [word, ...rest] = line.split(' ');
      return [word, rest.join(' ')];
    }),
    cuts: v.cutting.map((s): [string, string] => [s.label, String(s.plan.sawCuts)]),
    joints: v.gluing.sizes.map((s): [string, string] => [s.nominal, String(s.joints)]),
    weight: [
      [b.hold.dry, say(v.supports.dry_kg, 'mass', u)],
      [b.hold.perArea, `${say(v.supports.perArea_kgm2, 'mass', u)} / m²`],
    ],
    pipe: v.cutting.map((s): [string, string] => [s.label, say(s.pipe_m, 'length', u)]),
    perHeat: [[b.read.cost, money(v.shopTotal.price, v.currency)]],
  };
  return (id) => {
    const words = Object.entries(b.why).find(([key]) => key === id)?.[1];
    return words === undefined ? null : { ...words, inputs: inputs[id] ?? [], touches: ['build-'] };
  };
}
