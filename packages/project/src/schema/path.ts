import * as z from 'zod/mini';
import { finite, fraction, id, lossPoint, name, nonNegative, pipeId, positive } from './primitives';

export const fittingsSchema = z.array(
  z.strictObject({
    kind: z.enum([
      'elbow90',
      'elbow45',
      'sweep90',
      'teeRun',
      'teeBranch',
      'reducer',
      'expander',
      'coupling',
      'union',
      'entrance',
      'exit',
    ]),
    count: z.int().check(z.gte(1), z.lte(200)),
  }),
);

export const surroundingsSchema = z.enum(['sun', 'shade', 'indoors', 'buried']);

/** A run of one pipe. Heights are over the water; the upstream end takes the height of what comes before. */
export const pipeRunSchema = z.strictObject({
  kind: z.literal('pipe'),
  id,
  name: z.optional(name),
  pipe: pipeId,
  length_m: positive,
  fittings: z.optional(fittingsSchema),
  /** Any further loss, on this pipe's own velocity head. */
  extraK: z.optional(nonNegative),
  /** Height of the downstream end. */
  endHeight_m: z.optional(finite),
  /** Heights between the ends, by distance from the upstream end. */
  profile: z.optional(
    z.array(z.strictObject({ at_m: nonNegative, height_m: finite })).check(z.maxLength(50)),
  ),
  surroundings: surroundingsSchema,
  /** Equal pipes side by side that share the flow; 1 when absent. */
  parallel: z.optional(z.int().check(z.gte(1), z.lte(20))),
});

export const valveTypeSchema = z.enum(['ball', 'gate', 'globe', 'butterfly', 'diverter', 'needle']);

export const valveSchema = z.strictObject({
  kind: z.literal('valve'),
  id,
  name: z.optional(name),
  role: z.enum(['isolating', 'balancing', 'toCollector', 'past', 'suction', 'outlet']),
  type: valveTypeSchema,
  /** Nominal pipe that it is made for; gives Kv from the table when `kv_m3h` is absent. */
  pipe: z.optional(pipeId),
  kv_m3h: z.optional(positive),
  /** 0 is shut, exactly; 1 is fully open. */
  opening: fraction,
  /** Own characteristic: share of Kv by opening. */
  characteristic: z.optional(
    z.array(z.strictObject({ opening: fraction, kvShare: fraction })).check(z.minLength(2), z.maxLength(30)),
  ),
});

export const checkValveSchema = z.strictObject({
  kind: z.literal('checkValve'),
  id,
  name: z.optional(name),
  pipe: z.optional(pipeId),
  kv_m3h: z.optional(positive),
});

/** Anything else in line that takes pressure: heater, chlorine generator, feeder, flow meter … */
export const deviceSchema = z.strictObject({
  kind: z.literal('device'),
  id,
  name,
  type: z.enum(['heater', 'chlorinator', 'feeder', 'flowMeter', 'strainer', 'other']),
  loss: lossPoint,
  minFlow_m3s: z.optional(positive),
});

/** A small branch to the air, shut in normal running unless it is automatic. */
export const tapSchema = z.strictObject({
  kind: z.literal('tap'),
  id,
  name: z.optional(name),
  purpose: z.enum(['drain', 'bleed', 'airVent', 'vacuumBreaker']),
  open: z.optional(z.boolean()),
  /** Vacuum at which a vacuum breaker lets air in. */
  opensAt_Pa: z.optional(nonNegative),
});

export type PipeRun = z.infer<typeof pipeRunSchema>;
export type Valve = z.infer<typeof valveSchema>;
export type CheckValve = z.infer<typeof checkValveSchema>;
export type Device = z.infer<typeof deviceSchema>;
export type Tap = z.infer<typeof tapSchema>;
export type Fittings = z.infer<typeof fittingsSchema>;

/** Several ways side by side that part and meet again. */
export interface Split {
  kind: 'split';
  id: string;
  name?: string | undefined;
  /** Named when it is a plain tee: its losses then follow the tee model; else junctions cost nothing. */
  tee?: boolean | undefined;
  branches: PathElement[][];
}

export type PathElement = PipeRun | Valve | CheckValve | Device | Tap | Split;
/** What water passes one after another, upstream first. */
export type Path = PathElement[];

export const splitSchema: z.ZodMiniType<Split> = z.strictObject({
  kind: z.literal('split'),
  id,
  name: z.optional(name),
  tee: z.optional(z.boolean()),
  branches: z
    .array(z.lazy(() => pathSchema))
    .check(z.minLength(2), z.maxLength(8)) as unknown as z.ZodMiniType<PathElement[][]>,
});

const leafSchema = z.discriminatedUnion('kind', [
  pipeRunSchema,
  valveSchema,
  checkValveSchema,
  deviceSchema,
  tapSchema,
  splitSchema as unknown as typeof tapSchema,
]);

export const pathSchema: z.ZodMiniType<Path> = z
  .array(leafSchema as unknown as z.ZodMiniType<PathElement>)
  .check(z.maxLength(100));
