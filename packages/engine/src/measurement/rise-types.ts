import type { Notice } from '../numeric/notice';
import type { Component } from './component';
import type { Place } from './place';

export interface Thermometer {
  /** class, ± [K] */
  limit_K: number;
  /** last digit or mark [K] */
  resolution_K: number;
  /** reading minus truth, from a calibration [K] */
  offset_K?: number;
}

export interface TemperatureReadings {
  readings_C: readonly number[];
  thermometer: Thermometer;
  place: Place;
  /** instead of the usual doubt of that place, ± [K] */
  placeLimit_K?: number;
}

/** Both thermometers held in one pail of water, stirred. */
export interface OnePail {
  inlet_C: readonly number[];
  outlet_C: readonly number[];
  /** how far the offset may move between pail and loop, ± [K]; 0.05 is common practice */
  driftLimit_K?: number;
}

export interface RiseTest {
  inlet: TemperatureReadings;
  outlet: TemperatureReadings;
  onePail?: OnePail;
  /** correlation of the two thermometers' class errors [–], 0…1: same make and batch; 1 = one thermometer for both */
  classCorrelation?: number;
  /** water of the pool away from the return [°C] */
  pool_C?: number;
}

export interface Rise {
  rise_K: number;
  inlet_C: number;
  outlet_C: number;
  standardUncertainty_K: number;
  expandedUncertainty_K: number;
  dof: number;
  components: Component[];
  /** outlet minus inlet thermometer in the same water, already taken off [K] */
  offset_K: number;
  /** correlation of the two readings’ instrument errors that the check amounts to [–] */
  correlation: number;
}

export interface RiseOutcome {
  rise: Rise | undefined;
  notices: Notice[];
}
