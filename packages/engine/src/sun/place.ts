/** A place on the earth. */
export interface Place {
  /** North positive [deg], −90…90. */
  readonly latitude_deg: number;
  /** East positive [deg], −180…180. */
  readonly longitude_deg: number;
  /** Above sea level [m]. */
  readonly elevation_m: number;
}

/** Air that bends the light near the horizon. */
export interface RefractingAir {
  readonly pressure_Pa: number;
  readonly temperature_C: number;
}
