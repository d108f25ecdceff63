import * as z from 'zod/mini';
import { collectorSchema } from './collector';
import { asBuiltSchema, repairSchema, testDaySchema } from './life';
import { loopSchema } from './loop';
import { poolSchema } from './pool';
import { name, text } from './primitives';
import { seasonSchema, yardSchema } from './season';
import { siteSchema } from './site';
import { buildSchema, pricesSchema, stockSchema } from './stock';

export const SCHEMA_VERSION = 1;

/** The whole project file, version 1. SI; unit in each field's suffix; heights over the pool's water. */
export const projectSchema = z.strictObject({
  /** Where the published JSON Schema is found, for editors. */
  $schema: z.optional(z.string()),
  schemaVersion: z.literal(SCHEMA_VERSION),
  name,
  /** True for invented demonstration data. */
  invented: z.optional(z.boolean()),
  notes: z.optional(text),
  units: z.enum(['us', 'metric']),
  /** What the person answered with "don't know"; each widens the band of what depends on it. */
  unsure: z.optional(
    z.array(z.enum(['place', 'pool', 'pump', 'pipe', 'plumbing', 'wind', 'surface', 'placement'])),
  ),
  site: siteSchema,
  pool: poolSchema,
  collector: collectorSchema,
  loop: loopSchema,
  yard: z.optional(yardSchema),
  season: z.optional(seasonSchema),
  asBuilt: z.array(asBuiltSchema),
  repairs: z.array(repairSchema),
  testDays: z.array(testDaySchema),
  prices: z.optional(pricesSchema),
  stock: z.optional(stockSchema),
  build: z.optional(buildSchema),
});

export type Project = z.infer<typeof projectSchema>;
