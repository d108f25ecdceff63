import * as z from 'zod/mini';
import { count, day, id, name, nonNegative, pipeId, positive, text } from './primitives';

/** What things cost where the person buys. Absent rows fall back on demo values, marked as such. */
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

export type Prices = z.infer<typeof pricesSchema>;
export type Stock = z.infer<typeof stockSchema>;
