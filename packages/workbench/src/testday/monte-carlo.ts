import type { Component } from '@sunlap/engine/measurement/component';
import type { FlowMeasurement } from '@sunlap/engine/measurement/flow';
import type { HeatMeasurement } from '@sunlap/engine/measurement/heat';
import { simulate } from '@sunlap/engine/measurement/monte-carlo';
import type { Input } from '@sunlap/engine/measurement/propagate';
import type { Rise } from '@sunlap/engine/measurement/rise-types';
import { createRandom } from '@sunlap/engine/numeric/random';
import type { TestDayValues } from './values';

const DRAWS = 8000;
const SEED = 1;

/**
 * The heat once more by drawing (JCGM 101): every component of flow and rise from its own distribution, multiplied
 * as they are. A check of the interval that holds for large doubts too, where the product is no longer straight.
 */
export function drawHeat(
  flow: FlowMeasurement,
  rise: Rise,
  heat: HeatMeasurement,
): TestDayValues['monteCarlo'] {
  const inputs = [...flow.components, ...rise.components].map(inputOf);
  if (inputs.length === 0) return null;
  const flows = flow.components.length;
  // heat = capacity·(1 + δV̇/V̇)·(ΔT + δT), with capacity = ρcV̇
  const model = (x: readonly number[]): number => {
    let moreFlow = 0;
    let moreRise = 0;
    for (let i = 0; i < x.length; i++) {
      if (i < flows) moreFlow += x[i];
      else moreRise += x[i];
    }
    return heat.capacityFlow_WK * (1 + moreFlow / flow.flow_m3s) * (rise.rise_K + moreRise);
  };
  const found = simulate(model, inputs, createRandom(SEED), DRAWS);
  return {
    draws: DRAWS,
    standardUncertainty_W: found.standardUncertainty,
    lower_W: found.lower,
    upper_W: found.upper,
  };
}

function inputOf(c: Component): Input {
  return {
    name: c.source,
    value: 0,
    standardUncertainty: Math.abs(c.effect),
    dof: c.dof,
    shape: c.shape,
  };
}
