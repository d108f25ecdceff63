import * as z from 'zod/mini';
import { collectorSchema } from './collector';
import { loopSchema } from './loop';
import { day, finite, fraction, id, localTime, name, nonNegative, positive, text } from './primitives';

/** How the heater stood from a date on, whole, so that a test day is judged against what it measured. */
export const asBuiltSchema = z.strictObject({
  id,
  from: day,
  name,
  change: z.optional(text),
  collector: collectorSchema,
  loop: loopSchema,
});

export const repairSchema = z.strictObject({
  id,
  date: day,
  section: z.optional(id),
  bank: z.optional(id),
  tube: z.optional(z.int().check(z.gte(1))),
  what: z.enum(['plugged', 'coupled', 'replaced', 'reglued', 'cleaned', 'other']),
  notes: z.optional(text),
});

/** A thermometer: half-widths are limits, not standard deviations. */
const thermometerSchema = z.strictObject({
  name: z.optional(name),
  resolution_K: positive,
  limit_K: nonNegative,
  /** Reading minus truth, when it was found. */
  offset_K: z.optional(finite),
  offsetUncertainty_K: z.optional(nonNegative),
});

const readingsSchema = z
  .array(z.strictObject({ at_s: z.optional(nonNegative), value_C: finite }))
  .check(z.maxLength(200));

export const testDaySchema = z.strictObject({
  id,
  /** Start of the readings, local time. */
  at: localTime,
  name: z.optional(name),
  /** As-built state that it belongs to; found by date when absent. */
  state: z.optional(id),
  pail: z.optional(
    z.strictObject({
      volume_m3: positive,
      volumeLimit_m3: nonNegative,
      fillLineLimit_m3: z.optional(nonNegative),
      reaction_s: nonNegative,
      times_s: z.array(nonNegative).check(z.maxLength(100)),
      shareCaught: z.optional(fraction),
      outletLift_m: z.optional(finite),
    }),
  ),
  meter: z.optional(
    z.strictObject({
      first_m3: nonNegative,
      last_m3: nonNegative,
      between_s: positive,
      limit_m3: nonNegative,
    }),
  ),
  rotameter: z.optional(z.strictObject({ flow_m3s: positive, limit_m3s: nonNegative })),
  gauges: z.optional(
    z.strictObject({
      pressureIn_Pa: finite,
      pressureOut_Pa: finite,
      vacuumIn_Pa: z.optional(finite),
      vacuumOut_Pa: z.optional(finite),
      limit_Pa: nonNegative,
    }),
  ),
  warmFront: z.optional(
    z.strictObject({ delays_s: z.array(positive).check(z.maxLength(50)), limit_s: nonNegative }),
  ),
  inlet: z.optional(
    z.strictObject({
      where: z.enum(['collectorInlet', 'poolReturn', 'skimmer', 'poolBulk']),
      thermometer: thermometerSchema,
      readings: readingsSchema,
    }),
  ),
  outlet: z.optional(
    z.strictObject({
      where: z.enum(['collectorOutlet', 'poolReturn', 'pail']),
      thermometer: thermometerSchema,
      readings: readingsSchema,
    }),
  ),
  /** Both thermometers in one pail: pairs of readings (inlet's, outlet's). */
  samePail: z.optional(z.array(z.tuple([finite, finite])).check(z.maxLength(100))),
  weather: z.optional(
    z.strictObject({
      sky: z.optional(z.enum(['clear', 'hazy', 'thinCloud', 'halfCloud', 'overcast'])),
      irradiance_Wm2: z.optional(nonNegative),
      air_C: z.optional(finite),
      dewPoint_C: z.optional(finite),
      humidity: z.optional(fraction),
      beaufort: z.optional(z.int().check(z.gte(0), z.lte(12))),
      wind_ms: z.optional(nonNegative),
    }),
  ),
  /** Hand on each tube near its outlet. */
  touch: z.optional(
    z.array(
      z.strictObject({
        section: id,
        bank: id,
        tube: z.int().check(z.gte(1)),
        feel: z.enum(['cool', 'warm', 'hot']),
      }),
    ),
  ),
  /** Temperature of each tube near its outlet. */
  tubes: z.optional(
    z.array(z.strictObject({ section: id, bank: id, tube: z.int().check(z.gte(1)), value_C: finite })),
  ),
  steadyFor_s: z.optional(nonNegative),
  notes: z.optional(text),
});

export type AsBuilt = z.infer<typeof asBuiltSchema>;
export type Repair = z.infer<typeof repairSchema>;
export type TestDay = z.infer<typeof testDaySchema>;
