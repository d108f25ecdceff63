import * as z from 'zod/mini';
import { pathSchema, valveSchema } from './path';
import { finite, fraction, id, lossPoint, name, nonNegative, pipeId, positive } from './primitives';

export const suctionSchema = z.strictObject({
  id,
  name: z.optional(name),
  kind: z.enum(['skimmer', 'mainDrain', 'cleaner']),
  /** Mouth under the normal water surface. */
  depth_m: nonNegative,
  /** Flow for which its cover is rated, all openings of the system together. */
  coverRating_m3s: z.optional(positive),
  /** Share of the suction that the person set or measured; found from the pipes when absent. */
  share: z.optional(fraction),
  path: pathSchema,
});

export const pumpSchema = z.strictObject({
  name: z.optional(name),
  height_m: finite,
  curve: z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('points'),
      points: z
        .array(
          z.strictObject({ flow_m3s: nonNegative, head_m: nonNegative, power_W: z.optional(nonNegative) }),
        )
        .check(z.minLength(2), z.maxLength(40)),
    }),
    z.strictObject({
      kind: z.literal('shelf'),
      shelf: name,
      measured: z.optional(z.strictObject({ flow_m3s: positive, head_m: positive })),
    }),
  ]),
  /** Of rated speed; 0 is stopped. */
  speed: z.number().check(z.gte(0), z.lte(1.5)),
  driveLoad_W: z.optional(nonNegative),
  efficiency: z.optional(fraction),
});

export const filterSchema = z.strictObject({
  kind: z.enum(['sand', 'cartridge', 'diatomite']),
  height_m: z.optional(finite),
  /** Clean pressure drop at one or two flows. */
  clean: z.array(lossPoint).check(z.minLength(1), z.maxLength(2)),
  /** 1 clean; 2 means twice the clean linear resistance. */
  dirt: z.number().check(z.gte(1), z.lte(20)),
  backwash_m3: z.optional(nonNegative),
});

export const bypassSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('none') }),
  z.strictObject({
    kind: z.literal('threeWay'),
    id,
    pipe: z.optional(pipeId),
    kv_m3h: z.optional(positive),
    /** 0 all past the collector, 1 all through it. */
    toCollector: fraction,
    past: pathSchema,
  }),
  z.strictObject({
    kind: z.literal('twoValves'),
    toCollector: valveSchema,
    pastValve: valveSchema,
    past: pathSchema,
  }),
]);

export const outletSchema = z.strictObject({
  id,
  name: z.optional(name),
  kind: z.enum(['underWater', 'overWater']),
  /** Height of the opening over (−: under) the normal water surface. */
  height_m: finite,
  /** Bore of the opening; that of the last pipe when absent. */
  bore_m: z.optional(positive),
  path: pathSchema,
});

/** Everything wet but the collector, in the order in which water passes. */
export const loopSchema = z.strictObject({
  suctions: z.array(suctionSchema).check(z.minLength(1), z.maxLength(8)),
  /** From where the suctions meet to the pump. */
  toPump: pathSchema,
  pump: pumpSchema,
  toFilter: pathSchema,
  filter: z.optional(filterSchema),
  /** From the filter to the bypass. */
  toBypass: pathSchema,
  bypass: bypassSchema,
  feed: pathSchema,
  return: pathSchema,
  /** A return that does not come back to the loop but has its own mouth at the pool. */
  returnOutlet: z.optional(outletSchema),
  /** From where the two ways meet to where the outlets part. */
  toPool: pathSchema,
  outlets: z.array(outletSchema).check(z.minLength(1), z.maxLength(12)),
  turnoverTarget_h: z.optional(positive),
});

export type Loop = z.infer<typeof loopSchema>;
export type Pump = z.infer<typeof pumpSchema>;
export type Filter = z.infer<typeof filterSchema>;
export type Bypass = z.infer<typeof bypassSchema>;
export type Outlet = z.infer<typeof outletSchema>;
export type Suction = z.infer<typeof suctionSchema>;
