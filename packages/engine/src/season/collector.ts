/** Heat of a collector while water runs through it, at one step and pool temperature; filled by a collector. */
export interface CollectorRun {
  /** Into the pool at the temperature asked for [W], and its slope by the pool's temperature [W/K], ≤ 0. */
  heat_W: number;
  slope_WK: number;
  /** Of it from headers and hand-overs, and from feed and return pipes [W]. */
  headers_W: number;
  headersSlope_WK: number;
  pipes_W: number;
  pipesSlope_WK: number;
  /** Outlet less inlet [K]. */
  rise_K: number;
  /** ṁc of the water through it [W/K]. */
  capacity_WK: number;
  /** Mean of the water in the panel [°C]. */
  mean_C: number;
}

/** Where water goes that stands in the panel. */
export interface CollectorStanding {
  standing_C: number;
  tau_s: number;
}

/** A store beside the panel's: it follows its own surroundings while nothing runs. */
export interface CollectorPipes {
  readonly holds_JK: number;
  standing(step: number, out: CollectorStanding): void;
}

/** Anything that heats a pool hour by hour. */
export interface SeasonCollector {
  /** Pump while water runs through the collector, and while it runs past it [W]. */
  readonly powerThrough_W: number;
  readonly powerPast_W: number;
  /** Heat capacity of the water that stands in it, and its walls [J/K]. */
  readonly holds_JK: number;
  /** Feed and return pipe, which hold water of their own between pool and panel; none when absent. */
  readonly pipes?: CollectorPipes | null;
  /** @param aside only looked at: leaves no trace in what is asked later */
  running(step: number, water_C: number, out: CollectorRun, aside?: boolean): void;
  standing(step: number, out: CollectorStanding): void;
}

export function emptyRun(): CollectorRun {
  return {
    heat_W: 0,
    slope_WK: 0,
    headers_W: 0,
    headersSlope_WK: 0,
    pipes_W: 0,
    pipesSlope_WK: 0,
    rise_K: 0,
    capacity_WK: 0,
    mean_C: 0,
  };
}
