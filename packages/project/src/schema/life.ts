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

/** A meter sits in the collector's own line, or in the line of all the water; in the collector's when absent. */
const meterPlace = z.enum(['collector', 'pump']);

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
      /** Of what runs where it was held. */
      shareCaught: z.optional(fraction),
      shareCaughtLimit: z.optional(fraction),
      /** Outlet at which it was held; all of the loop's water went into it when absent. */
      outlet: z.optional(id),
      /** How much higher the water had to run out: over the pool's surface for an outlet under water. */
      outletLift_m: z.optional(finite),
    }),
  ),
  meter: z.optional(
    z.strictObject({
      first_m3: nonNegative,
      last_m3: nonNegative,
      between_s: positive,
      limit_m3: nonNegative,
      at: z.optional(meterPlace),
    }),
  ),
  rotameter: z.optional(
    z.strictObject({
      flow_m3s: positive,
      /** All readings, when there was more than one. */
      readings_m3s: z.optional(z.array(nonNegative).check(z.maxLength(100))),
      limit_m3s: nonNegative,
      at: z.optional(meterPlace),
    }),
  ),
  /** At the pump, with the collector in the way of the water and out of it. A vacuum is a positive number. */
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
    z.strictObject({
      delays_s: z.array(nonNegative).check(z.maxLength(50)),
      limit_s: nonNegative,
      felt: z.optional(z.enum(['collectorOutlet', 'poolOutlet'])),
      /** The end of the hot water (whole way from the valve), or its beginning (from the collector's outlet). */
      front: z.optional(z.enum(['last', 'first'])),
    }),
  ),
  inlet: z.optional(
    z.strictObject({
      where: z.enum(['collectorInlet', 'poolReturn', 'skimmer', 'poolBulk', 'pipeWall', 'elsewhere']),
      thermometer: thermometerSchema,
      readings: readingsSchema,
    }),
  ),
  outlet: z.optional(
    z.strictObject({
      where: z.enum(['collectorOutlet', 'poolReturn', 'pail', 'pipeWall', 'elsewhere']),
      thermometer: thermometerSchema,
      readings: readingsSchema,
    }),
  ),
  /** Are the two thermometers one and the same, of one make, or different; different when absent. */
  thermometers: z.optional(z.enum(['oneForBoth', 'sameMake', 'different'])),
  /** Pool away from the returns. */
  pool_C: z.optional(finite),
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
      /** Where the wind was measured: beside the tubes, or in the open; in the open when absent. */
      windAt: z.optional(z.enum(['collector', 'open'])),
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
  tubeThermometer: z.optional(thermometerSchema),
  /** Time since sun, valve or pump speed last changed. */
  steadyFor_s: z.optional(nonNegative),
  /** Pump speed and valve on that day, when not as in the as-built state. */
  pumpSpeed: z.optional(z.number().check(z.gte(0), z.lte(1.5))),
  toCollector: z.optional(fraction),
  notes: z.optional(text),
});

export type AsBuilt = z.infer<typeof asBuiltSchema>;
export type Repair = z.infer<typeof repairSchema>;
export type TestDay = z.infer<typeof testDaySchema>;
