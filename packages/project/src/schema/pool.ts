import * as z from 'zod/mini';
import { azimuth_deg, finite, fraction, nonNegative, positive } from './primitives';

const place = { x_m: finite, y_m: finite, turn_deg: z.optional(azimuth_deg) };

/** Outline of the water seen from above; `x_m`, `y_m` are its centre in yard axes, `turn_deg` clockwise. */
export const outlineSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('rectangle'), ...place, length_m: positive, width_m: positive }),
  z.strictObject({ kind: z.literal('round'), ...place, diameter_m: positive }),
  z.strictObject({ kind: z.literal('oval'), ...place, length_m: positive, width_m: positive }),
  /**
   * Rectangle length × width with its north-east corner of cutLength × cutWidth taken out; `mirrored`, which is
   * false when absent, takes the north-west one: the other hand, which no turn makes of it.
   */
  z.strictObject({
    kind: z.literal('L'),
    ...place,
    length_m: positive,
    width_m: positive,
    cutLength_m: positive,
    cutWidth_m: positive,
    mirrored: z.optional(z.boolean()),
  }),
  z.strictObject({
    kind: z.literal('polygon'),
    points: z.array(z.tuple([finite, finite])).check(z.minLength(3), z.maxLength(200)),
  }),
]);

/** Heights in the whole file are over the pool's normal water surface. */
export const poolSchema = z.strictObject({
  outline: outlineSchema,
  shallow_m: positive,
  deep_m: positive,
  /** Mean depth when it is not halfway between the two. */
  meanDepth_m: z.optional(positive),
  /** Centre of the skimmer mouth's lower lip under the normal water surface. */
  skimmerMouthDepth_m: nonNegative,
  /** Water over (+) or under (−) the normal surface now. */
  waterLevel_m: z.optional(finite),
  floor: z.enum(['light', 'medium', 'dark']),
  lining: z.optional(z.enum(['plaster', 'tile', 'vinyl', 'fibreglass', 'other'])),
  wish_C: z.number().check(z.gte(0), z.lte(45)),
  automaticMakeUp: z.boolean(),
  /** A screen enclosure over the pool. */
  screen: z.optional(
    z.strictObject({
      height_m: positive,
      /** How far it reaches past the water on every side. */
      margin_m: nonNegative,
      mesh: z.discriminatedUnion('kind', [
        z.strictObject({
          kind: z.literal('woven'),
          wires1_perM: positive,
          wires2_perM: positive,
          wireDiameter_m: positive,
        }),
        z.strictObject({ kind: z.literal('typed'), openness: fraction }),
      ]),
      windLoss: fraction,
    }),
  ),
});

export type Pool = z.infer<typeof poolSchema>;
export type Outline = z.infer<typeof outlineSchema>;
