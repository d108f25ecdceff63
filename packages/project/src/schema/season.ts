import * as z from 'zod/mini';
import { finite, fraction, id, name, nonNegative, positive } from './primitives';

const twelve = <T extends z.ZodMiniType>(entry: T) => z.array(entry).check(z.length(12));
/** By the clock on the wall, summer time included [h]. */
const hour = z.number().check(z.gte(0), z.lte(24));

/** When something is on: months January first, hours of the local day, days of the week Monday first. */
export const scheduleSchema = z.strictObject({
  months: twelve(z.boolean()),
  /** From 20 to 8 runs through the night; equal hours are all day. */
  from_h: hour,
  to_h: hour,
  weekdays: z.optional(z.array(z.boolean()).check(z.length(7))),
});

/** One month of what any almanac prints. */
const monthSchema = z.strictObject({
  high_C: finite,
  low_C: finite,
  sunshine_h: z.optional(nonNegative),
  /** Mean daily sun on the level. */
  irradiation_kWhm2: z.optional(nonNegative),
  humidity: z.optional(fraction),
  dewPoint_C: z.optional(finite),
  wind_ms: z.optional(nonNegative),
  rain_mm: z.optional(nonNegative),
});

/** Where the weather of a year comes from. Imported hours stay outside the file, by name. */
export const climateSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('place'), id: name }),
  z.strictObject({ kind: z.literal('type'), id: name }),
  z.strictObject({
    kind: z.literal('table'),
    name: z.optional(name),
    months: twelve(monthSchema),
    /** What of the shelf the table began as; rows can be set back to it. */
    from: z.optional(z.strictObject({ kind: z.enum(['place', 'type']), id: name })),
  }),
  z.strictObject({ kind: z.literal('file'), name }),
]);

export const coverSchema = z.strictObject({
  /** Row of the cover table. */
  cover: name,
  on: z.array(scheduleSchema).check(z.maxLength(8)),
});

export const swimmersSchema = z.strictObject({
  count: nonNegative,
  on: z.array(scheduleSchema).check(z.maxLength(8)),
});

export const heaterSchema = z.strictObject({
  kind: z.enum(['gas', 'condensingGas', 'resistance', 'heatPump']),
  capacity_W: positive,
  setpoint_C: z.number().check(z.gte(0), z.lte(45)),
  /** Heat into the pool over what it burns or draws; that of its kind when absent. */
  efficiency: z.optional(positive),
  on: z.array(scheduleSchema).check(z.maxLength(8)),
});

/** When water runs through the collector. */
export const runPlanSchema = z.discriminatedUnion('kind', [
  /** Valve turned by hand: hours of the day by month. */
  z.strictObject({
    kind: z.literal('hours'),
    months: twelve(z.strictObject({ from_h: hour, to_h: hour, on: z.boolean() })),
    /** Nobody heats water that is this warm; the valve is closed for the day. */
    limit_C: z.optional(z.number().check(z.gte(0), z.lte(45))),
  }),
  /** A controller that compares collector and pool. */
  z.strictObject({
    kind: z.literal('controller'),
    onDifference_K: positive,
    offDifference_K: nonNegative,
    limit_C: z.number().check(z.gte(0), z.lte(45)),
    limitHysteresis_K: z.optional(nonNegative),
    from_h: hour,
    to_h: hour,
    nightCooling: z.optional(z.boolean()),
  }),
]);

/** What the season needs beyond site, pool, collector and loop. Every part has a usual value. */
export const seasonSchema = z.strictObject({
  climate: z.optional(climateSchema),
  seed: z.optional(z.int().check(z.gte(0))),
  run: z.optional(runPlanSchema),
  /** Months in which the panel is shut down and drained, January first: nothing runs and no frost splits it. */
  drained: z.optional(twelve(z.boolean())),
  /** Hours in which the pump runs anyway, for the filter; only power beyond them is the collector's. */
  filterHours: z.optional(z.strictObject({ from_h: hour, to_h: hour })),
  cover: z.optional(coverSchema),
  swimmers: z.optional(swimmersSchema),
  heater: z.optional(heaterSchema),
  mains_C: z.optional(finite),
  splash_m3PerDay: z.optional(nonNegative),
  backwashEvery_days: z.optional(positive),
  /** Evaporation correlation; the usual one when absent. */
  evaporation: z.optional(
    z.enum(['smithLofJones', 'carrier', 'carrierHalf', 'as3634', 'isoTr12596', 'richter', 'mcmillan']),
  ),
  swimMonths: z.optional(twelve(z.boolean())),
  /** What collector and a cover cost, and how long they last, where the parts list does not say it. */
  spending: z.optional(
    z.strictObject({
      collector: z.optional(nonNegative),
      cover: z.optional(nonNegative),
      years: z.optional(positive),
    }),
  ),
});

export type Season = z.infer<typeof seasonSchema>;
export type RunPlan = z.infer<typeof runPlanSchema>;
export type Climate = z.infer<typeof climateSchema>;
export type Schedule = z.infer<typeof scheduleSchema>;

const planPoint = z.tuple([finite, finite]);

/** Things in the yard that throw shadows; heights over the pool's water, plan in yard axes. */
export const obstacleSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('prism'),
    id,
    name: z.optional(name),
    what: z.enum(['house', 'wall', 'fence', 'hedge', 'other']),
    footprint: z.array(planPoint).check(z.minLength(3), z.maxLength(100)),
    base_m: finite,
    top_m: finite,
  }),
  z.strictObject({
    kind: z.literal('tree'),
    id,
    name: z.optional(name),
    x_m: finite,
    y_m: finite,
    ground_m: finite,
    height_m: positive,
    crownRadius_m: positive,
    crownBase_m: nonNegative,
    trunkRadius_m: nonNegative,
    leafTransmittance: fraction,
    bareTransmittance: fraction,
    leafMonths: twelve(z.boolean()),
  }),
]);

/** A pipe's way seen from above, from the pump's side to the panel's. */
const routeSchema = z.array(planPoint).check(z.minLength(2), z.maxLength(60));

export const yardSchema = z.strictObject({
  /** Ways of the pipe from the pump to the panel and back; none when absent. */
  routes: z.optional(z.strictObject({ feed: z.optional(routeSchema), return: z.optional(routeSchema) })),
  obstacles: z.array(obstacleSchema).check(z.maxLength(60)),
  /** Sunlit share of the day that the person sees, by month, beside the computed one. */
  seenSunlit: z.optional(
    z.array(
      z.strictObject({
        of: z.enum(['pool', 'collector']),
        month: z.int().check(z.gte(1), z.lte(12)),
        share: fraction,
      }),
    ),
  ),
});

export type Yard = z.infer<typeof yardSchema>;
export type YardObstacle = z.infer<typeof obstacleSchema>;
