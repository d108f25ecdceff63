import * as z from 'zod/mini';
import { finite, fraction, name, nonNegative, positive } from './primitives';

/** Wind there over wind at 10 m in the open, by a named setting or the person's own figure with its doubt. */
export const exposureSchema = z.strictObject({
  setting: z.enum(['open', 'someShelter', 'sheltered', 'veryShelteredCourt', 'own']),
  windRatio: z.optional(positive),
  windRatioLow: z.optional(nonNegative),
  windRatioHigh: z.optional(positive),
});

/** Where it stands. Yard axes: x east, y north [m], origin where the person puts it. */
export const siteSchema = z.strictObject({
  place: name,
  latitude_deg: z.number().check(z.gte(-90), z.lte(90)),
  longitude_deg: z.number().check(z.gte(-180), z.lte(180)),
  elevation_m: z.number().check(z.gte(-450), z.lte(6000)),
  /** IANA name, e.g. `America/Denver`. */
  timeZone: z.string().check(z.minLength(1), z.maxLength(64)),
  groundAlbedo: fraction,
  /** Linke turbidity of a clear day, by month or one value. */
  linkeTurbidity: z.optional(z.number().check(z.gte(1), z.lte(10))),
  exposure: z.strictObject({ collector: exposureSchema, pool: exposureSchema }),
  /** Ground temperature for buried pipe and pool floor; the year's mean air temperature when absent. */
  ground_C: z.optional(finite),
});

export type Site = z.infer<typeof siteSchema>;
export type Exposure = z.infer<typeof exposureSchema>;
