import * as z from 'zod/mini';
import { count, day, finite, id, name, nonNegative, pipeId, positive, text } from './primitives';

/**
 * What things cost where the person buys. Absent rows fall back on demo values, marked as such: a row for one length of a
 * pipe, or for one pack of a part, stands in place of the demo row of that length or pack and leaves the others.
 */
export const pricesSchema = z.strictObject({
  currency: z.string().check(z.regex(/^[A-Z]{3}$/, 'a currency code as USD')),
  asOf: day,
  electricity_perkWh: z.optional(nonNegative),
  replacedHeat: z.optional(
    z.strictObject({
      kind: z.enum(['gas', 'condensingGas', 'resistance', 'heatPump', 'none']),
      price_perkWh: nonNegative,
    }),
  ),
  parts: z.array(
    z.strictObject({
      part: name,
      /** Absent where the row only says what was bought. */
      price: z.optional(nonNegative),
      packOf: z.optional(count),
      stockLength_m: z.optional(positive),
      /** True where this length or pack is not to be had here; false when absent. */
      notSold: z.optional(z.boolean()),
      bought: z.optional(nonNegative),
      paid: z.optional(nonNegative),
    }),
  ),
});

/** Pipe, fittings and boards on hand; used first. */
export const stockSchema = z.strictObject({
  pipes: z.array(z.strictObject({ pipe: pipeId, length_m: positive, count })),
  parts: z.array(z.strictObject({ part: name, count })),
  boards: z.array(
    z.strictObject({
      id,
      name: z.optional(name),
      length_m: positive,
      width_m: positive,
      thickness_m: positive,
      count,
    }),
  ),
  /** Fittings as a person measured them; in place of the standard's dimensions. */
  measured: z.optional(
    z.array(
      z.strictObject({
        part: name,
        /** G, centre to socket bottom along the run. */
        takeOff_m: z.optional(positive),
        /** S, depth of a socket. */
        socket_m: z.optional(positive),
        /** G towards a tee's branch. */
        branchTakeOff_m: z.optional(positive),
      }),
    ),
  ),
  notes: z.optional(text),
});

/** How the person builds. Every absent field stands for the usual value that is named beside it. */
export const buildSchema = z.strictObject({
  /** What is counted: what a pool that runs already still needs, or suctions, pump side and pool return too; `heater`. */
  scope: z.optional(z.enum(['heater', 'all'])),
  /** How pipe longer than the stock is joined; `none` asks for a notice instead; `coupling`. */
  join: z.optional(z.enum(['coupling', 'bell', 'none'])),
  /** Unions where a section meets its feed and its return; true. */
  unions: z.optional(z.boolean()),
  /** What cuts; `handSaw`. */
  tool: z.optional(z.enum(['ratchet', 'handSaw', 'chopSaw'])),
  /** Width of a cut; that of the tool: 0, 1 mm, 3 mm. */
  kerf_m: z.optional(z.number().check(z.gte(0), z.lte(0.02))),
  /** Primer under cement; true. */
  primer: z.optional(z.boolean()),
  /** Share of small parts bought on top; 0.05. */
  spares: z.optional(z.number().check(z.gte(0), z.lte(1))),
  /** Cement added for cans that skin over; 0.4. */
  cementWaste: z.optional(z.number().check(z.gte(0), z.lte(2))),
  /** Air on the days of gluing; 20. */
  glueAir_C: z.optional(finite),
  /** Warmest water that runs through it, for what pipe may bear; the pool's wish and 12 K, at least 40. */
  water_C: z.optional(z.number().check(z.gte(0), z.lte(100))),
  /** Coldest day, hottest calm day; −10 and 35. */
  coldest_C: z.optional(finite),
  hottest_C: z.optional(finite),
  /** Gust for the wind's pressure; 40. */
  gust_ms: z.optional(nonNegative),
  /** Steps of the order of work that are done, by their ids. */
  done: z.optional(z.array(z.string().check(z.minLength(1), z.maxLength(300))).check(z.maxLength(500))),
});

export type Prices = z.infer<typeof pricesSchema>;
export type Stock = z.infer<typeof stockSchema>;
export type Build = z.infer<typeof buildSchema>;
