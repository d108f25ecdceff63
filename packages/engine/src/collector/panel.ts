import { waterHeatCapacity } from '../fluids/water';
import { DomainError } from '../numeric/errors';
import { elementMaps, type Moment, mapElement, renewElement } from './panel-element';
import { mixNodes, standNodes } from './panel-mix';
import { flowOrder } from './panel-order';
import type { PreparedPanel } from './panel-prepare';
import type { PanelConditions, PanelOptions, PanelSolution } from './panel-types';

/**
 * Heat of a whole panel at one moment, every element at its own flow.
 *
 * Each element is a linear map of its inlet temperature, T_out = a·T_in + b, marched piece by piece (see
 * `marchPiece`). Nodes mix by enthalpy: with one heat capacity over the panel, at the mean of inlet and
 * outlet, that is by ṁT (c changes by 0.03 % over 20…40 °C). Coefficients that depend on temperature — long
 * wave, still air, viscosity, neighbours — are renewed until no temperature changes by more than the
 * tolerance; a panel solved before starts from its last temperatures.
 *
 * Water below 0 °C is reckoned as if it stayed liquid, and said to be frozen.
 *
 * Any sign of flow, zero included: water that stands takes its standing temperature and gives no heat.
 *
 * @param panel       from `preparePanel`; its temperatures are updated
 * @param flow_kgs    mass flow of each element, positive from → to [kg/s]
 * @param inlet_C     of the water that enters the panel [°C], 0…100
 * @param conditions  what every piece stands in
 * @param options     tolerance, laminar gain
 * @throws {DomainError} for a flow that is not finite, lists of the wrong length, an inlet outside 0…100 °C
 */
export function solvePanel(
  panel: PreparedPanel,
  flow_kgs: ArrayLike<number>,
  inlet_C: number,
  conditions: PanelConditions,
  options: PanelOptions = {},
): PanelSolution {
  check(panel, flow_kgs, inlet_C, conditions);
  const n = panel.from.length;
  const nodeCount = panel.description.nodeCount;
  const tolerance = options.tolerance_K ?? 1e-7;
  const limit = options.maxIterations ?? 60;
  const order = flowOrder(nodeCount, panel.from, panel.to, flow_kgs);
  const maps = elementMaps(panel);
  const node = new Float64Array(nodeCount).fill(inlet_C);
  const moment: Moment = { flow_kgs, conditions, options, heatCapacity_JkgK: waterHeatCapacity(inlet_C) };
  if (!panel.started) {
    panel.surface_C.fill(inlet_C);
    panel.water_C.fill(inlet_C);
    panel.started = true;
  }
  const still = order.through.some((m) => !(m > 0));
  let massFlow = 0;
  for (const m of order.entering) massFlow += m;

  let outlet: number | null = null;
  let residual = Infinity;
  let iterations = 0;
  let settled = true;
  while (residual > tolerance && iterations < limit) {
    iterations += 1;
    const mean = ((outlet ?? inlet_C) + inlet_C) / 2;
    moment.heatCapacity_JkgK = waterHeatCapacity(Math.min(100, Math.max(0, mean)));
    for (let e = 0; e < n; e += 1) mapElement(panel, maps, e, moment);
    settled = mixNodes(panel, maps, order, flow_kgs, inlet_C, node);
    outlet = mixedOutlet_C(order.leaving, node);
    residual = 0;
    for (let e = 0; e < n; e += 1) residual = Math.max(residual, renewElement(panel, maps, e, moment, node));
    if (still) standNodes(panel, order, inlet_C, node);
  }

  const c = moment.heatCapacity_JkgK;
  const heat = new Float64Array(n);
  const inletC = new Float64Array(n);
  const outletC = new Float64Array(n);
  let total = 0;
  let frozen = false;
  for (let e = 0; e < n; e += 1) {
    const m = flow_kgs[e];
    inletC[e] = m === 0 ? panel.water_C[e] : node[m > 0 ? panel.from[e] : panel.to[e]];
    const change = m === 0 ? 0 : maps.gain[e] * (maps.target[e] - inletC[e]);
    outletC[e] = inletC[e] + change;
    heat[e] = Math.abs(m) * c * change;
    frozen ||= outletC[e] < 0;
    total += heat[e];
  }
  let carried = 0;
  for (let i = 0; i < nodeCount; i += 1) carried += c * order.leaving[i] * (node[i] - inlet_C);
  const scale = Math.max(Math.abs(total), massFlow * c);
  return {
    converged: settled && residual <= tolerance,
    iterations,
    residual_K: residual,
    closure: scale > 0 ? Math.abs(total - carried) / scale : 0,
    heat_W: total,
    outlet_C: outlet,
    frozen,
    massFlow_kgs: massFlow,
    heatCapacity_JkgK: c,
    node_C: node,
    elementHeat_W: heat,
    elementInlet_C: inletC,
    elementOutlet_C: outletC,
    elementMean_C: Float64Array.from(panel.water_C),
    elementStanding_C: maps.standing,
    elementTarget_C: maps.target,
    pieceStanding_C: maps.pieceEq,
    pieceNtu: maps.pieceNtu,
    reynolds: maps.reynolds,
    airResistance_mKW: maps.air,
    wallResistance_mKW: Float64Array.from(panel.wall_mKW),
    waterResistance_mKW: maps.water,
  };
}

function mixedOutlet_C(leaving: Float64Array, node_C: Float64Array): number | null {
  let heat = 0;
  let mass = 0;
  for (let i = 0; i < leaving.length; i += 1) {
    heat += leaving[i] * node_C[i];
    mass += leaving[i];
  }
  return mass > 0 ? heat / mass : null;
}

function check(
  panel: PreparedPanel,
  flow_kgs: ArrayLike<number>,
  inlet_C: number,
  conditions: PanelConditions,
): void {
  if (flow_kgs.length !== panel.from.length)
    throw new DomainError('number of flows', flow_kgs.length, `${panel.from.length}`);
  for (let e = 0; e < flow_kgs.length; e += 1)
    if (!Number.isFinite(flow_kgs[e]))
      throw new DomainError(`flow of element ${e}`, flow_kgs[e], 'finite kg/s');
  if (!(inlet_C >= 0 && inlet_C <= 100)) throw new DomainError('inlet temperature', inlet_C, '[0, 100] °C');
  const pieces = panel.pieceLength_m.length;
  if (conditions.absorbed_Wm.length !== pieces)
    throw new DomainError('number of absorbed fluxes', conditions.absorbed_Wm.length, `${pieces}`);
  for (let p = 0; p < pieces; p += 1) {
    if (!Number.isFinite(conditions.absorbed_Wm[p]))
      throw new DomainError(`light absorbed by piece ${p}`, conditions.absorbed_Wm[p], 'finite W/m');
    if (!conditions.outside[panel.pieceOutside[p]])
      throw new DomainError(
        `surroundings of piece ${p}`,
        panel.pieceOutside[p],
        `0…${conditions.outside.length - 1}`,
      );
  }
}
