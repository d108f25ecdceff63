import type { SkyModel } from '../sun/plane';
import type { SkyEmittanceModel } from './long-wave';
import type { PlateFilm } from './outside-film';

/**
 * Where published models disagree: one record, one default, so that a caller can run the whole band by
 * replacing single fields.
 */
export interface HeatOptions {
  /** How the sky's diffuse light is spread. */
  readonly skyModel: SkyModel;
  /** Emittance of the clear sky: read by whoever works out the sky temperature of `OpenAir`. */
  readonly skyEmittance: SkyEmittanceModel;
  /** Wind on a closely packed row lying on a backing. */
  readonly plateFilm: PlateFilm;
  /**
   * Laminar film inside a tube over that of forced flow alone [–], 1…2. Natural convection across a heated
   * tube may nearly double it; 1 leaves it out.
   */
  readonly laminarGain: number;
}

export const DEFAULT_HEAT_OPTIONS: HeatOptions = {
  skyModel: 'perez',
  skyEmittance: 'berdahl-martin',
  plateFilm: 'watmuff',
  laminarGain: 1,
};

/** Every single departure from the default: with the default itself, the runs of the band. */
export const RIVAL_HEAT_OPTIONS: readonly HeatOptions[] = [
  { ...DEFAULT_HEAT_OPTIONS, skyModel: 'hay-davies' },
  { ...DEFAULT_HEAT_OPTIONS, skyModel: 'isotropic' },
  { ...DEFAULT_HEAT_OPTIONS, skyEmittance: 'brunt' },
  { ...DEFAULT_HEAT_OPTIONS, skyEmittance: 'clark-allen' },
  { ...DEFAULT_HEAT_OPTIONS, plateFilm: 'mcadams' },
  { ...DEFAULT_HEAT_OPTIONS, plateFilm: 'sharples' },
  { ...DEFAULT_HEAT_OPTIONS, laminarGain: 1.9 },
];
