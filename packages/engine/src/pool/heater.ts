/** Another heater of the pool: gas, heat pump, electric. */
export interface PoolHeater {
  /** Most heat it can give [W]. */
  readonly capacity_W: number;
  /** Thermostat [°C]. */
  readonly setpoint_C: number;
  /** Heat into the pool over what it burns or draws [–]: .8 gas, 5 heat pump. */
  readonly efficiency: number;
  /** Share of the step in which it may run [–]. */
  readonly enabled: number;
}
