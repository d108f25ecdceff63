import * as z from 'zod/mini';
import { type Path, pathSchema } from './path';
import {
  azimuth_deg,
  count,
  finite,
  fraction,
  id,
  lossPoint,
  name,
  nonNegative,
  pipeId,
  positive,
} from './primitives';

export const headerEndSchema = z.enum(['first', 'last']);
export type HeaderEnd = z.infer<typeof headerEndSchema>;

/** One or both ends of a header. `first` is the end at tube 1. */
const endsSchema = z.array(headerEndSchema).check(z.minLength(1), z.maxLength(2));

const headerSchema = z.strictObject({
  pipe: pipeId,
  /** What closes each end that nothing is joined to; a cap when absent. */
  spareFirst: z.optional(z.enum(['cap', 'valve'])),
  spareLast: z.optional(z.enum(['cap', 'valve'])),
  /** From the header's end to the first tee's centre; half the pitch when absent. */
  leadIn_m: z.optional(nonNegative),
});

/**
 * Where a bank lies in its section. Axes of the section: `across` counts from tube to tube, `along` runs with
 * the tubes from the section's near side to its far side; `depth` is the height of the tube axes over the
 * backing. Nested banks share `along` and differ in `across` and `depth`.
 */
const layout = { across_m: finite, along_m: z.optional(finite), depth_m: nonNegative };

export const tubeBankSchema = z.strictObject({
  kind: z.literal('tubes'),
  id,
  name: z.optional(name),
  ...layout,
  count,
  /** Length of each tube as cut; header centres lie this far apart and what sits in the two tees more. */
  length_m: positive,
  /** Centre to centre of neighbouring tubes along the header. */
  pitch_m: positive,
  pipe: pipeId,
  supply: headerSchema,
  gather: headerSchema,
  /** Fall of the tubes from the near to the far side [m/m], on top of what the slope gives. */
  fall_mPerM: z.optional(z.number().check(z.gte(-1), z.lte(1))),
  /** Fall of the headers from tube 1 to the last tube [m/m], on top of what the slope gives. */
  headerFall_mPerM: z.optional(z.number().check(z.gte(-1), z.lte(1))),
  /** Tube numbers, from 1. */
  blocked: z.optional(z.array(z.int().check(z.gte(1)))),
  airBound: z.optional(z.array(z.int().check(z.gte(1)))),
});

/** Coils of small pipe, flat or as a helix, side by side between headers or one after another. */
export const coilBankSchema = z.strictObject({
  kind: z.literal('coil'),
  id,
  name: z.optional(name),
  ...layout,
  count,
  join: z.enum(['parallel', 'series']),
  pipe: pipeId,
  length_m: positive,
  shape: z.enum(['flat', 'helix']),
  innerDiameter_m: positive,
  outerDiameter_m: positive,
  /** Distance between the centres of neighbouring coils; the outer diameter when absent. */
  pitch_m: z.optional(positive),
  /** Headers between which parallel coils sit; absent for coils in series. */
  supply: z.optional(headerSchema),
  gather: z.optional(headerSchema),
  blocked: z.optional(z.array(z.int().check(z.gte(1)))),
  airBound: z.optional(z.array(z.int().check(z.gte(1)))),
});

/** Bought absorbers with test coefficients in the form of ISO 9806, on gross area. */
export const ratedBankSchema = z.strictObject({
  kind: z.literal('rated'),
  id,
  name: z.optional(name),
  ...layout,
  count,
  join: z.enum(['parallel', 'series']),
  area_m2: positive,
  length_m: positive,
  width_m: positive,
  eta0: fraction,
  bu_sPerM: nonNegative,
  b1_Wm2K: nonNegative,
  b2_JPerm3K: nonNegative,
  emittanceOverAbsorptance: z.optional(nonNegative),
  loss: lossPoint,
  volume_m3: z.optional(nonNegative),
  headerPipe: z.optional(pipeId),
  blocked: z.optional(z.array(z.int().check(z.gte(1)))),
  airBound: z.optional(z.array(z.int().check(z.gte(1)))),
});

export const bankSchema = z.discriminatedUnion('kind', [tubeBankSchema, coilBankSchema, ratedBankSchema]);

/** From a bank's gathering header to the next bank's supply header, at one end or both. */
export const handoverSchema = z.strictObject({
  joins: z
    .array(
      z.strictObject({
        from: headerEndSchema,
        to: headerEndSchema,
        /** Absent: the distance between the two header ends in the header's pipe, with two elbows unless they face in line. */
        path: z.optional(pathSchema),
      }),
    )
    .check(z.minLength(1), z.maxLength(2)),
});

export const sectionSchema = z.strictObject({
  id,
  name: z.optional(name),
  /** Lower left corner in the collector's plane: along the contour to the right (seen from below), up the slope. */
  u_m: finite,
  v_m: finite,
  /** Height over the collector's plane. */
  raise_m: z.optional(finite),
  /** Tubes along the contour, up the slope, or turned by `angle_deg` from the contour towards up-slope. */
  direction: z.enum(['contour', 'slope', 'angle']),
  angle_deg: z.optional(z.number().check(z.gt(-180), z.lte(180))),
  /** Side of the section where the first bank's supply header lies; sides alternate from bank to bank. */
  inletSide: z.enum(['near', 'far']),
  inletEnds: endsSchema,
  outletEnds: endsSchema,
  banks: z.array(bankSchema).check(z.minLength(1), z.maxLength(12)),
  /** One for each step from bank to bank. */
  handovers: z.array(handoverSchema),
});

/** How the sections join: a tree of series and parallel, with pipe and valves before and after any part. */
export interface Plumbing {
  section?: string | undefined;
  series?: Plumbing[] | undefined;
  parallel?: Plumbing[] | undefined;
  before?: Path | undefined;
  after?: Path | undefined;
}
const plumbingList = z
  .array(z.lazy(() => plumbingSchema))
  .check(z.minLength(1), z.maxLength(24)) as unknown as z.ZodMiniType<Plumbing[]>;
export const plumbingSchema: z.ZodMiniType<Plumbing> = z.strictObject({
  section: z.optional(id),
  series: z.optional(plumbingList),
  parallel: z.optional(plumbingList),
  before: z.optional(pathSchema),
  after: z.optional(pathSchema),
});

export const backingSchema = z.strictObject({
  kind: z.enum(['none', 'board', 'roof', 'ground', 'membrane']),
  reflectance: fraction,
  /** Conductance from the backing's face to what is behind it. */
  backLoss_Wm2K: z.optional(nonNegative),
});

const headerPlaceSchema = z.strictObject({
  section: id,
  bank: id,
  header: z.enum(['supply', 'gather']),
  end: headerEndSchema,
});

export const collectorSchema = z.strictObject({
  placement: z.strictObject({
    /** Yard position of the plane's origin (lower left corner seen from below). */
    x_m: finite,
    y_m: finite,
    /** Where the plane looks: 0 north, 90 east, 180 south. */
    facing_deg: azimuth_deg,
    tilt_deg: z.number().check(z.gte(0), z.lte(90)),
    /** Height of the plane's lowest edge over the pool's water. */
    lowestHeight_m: finite,
    mounting: z.enum(['ground', 'rack', 'roof']),
    /** Ground or roof given to it: along the contour × up the slope. */
    width_m: z.optional(positive),
    height_m: z.optional(positive),
  }),
  backing: backingSchema,
  surface: z.strictObject({
    /** Row of the surface table, or `own`. */
    colour: name,
    absorptance: fraction,
    emittance: fraction,
  }),
  sections: z.array(sectionSchema).check(z.minLength(1), z.maxLength(24)),
  plumbing: plumbingSchema,
  supports: z.strictObject({
    /** Centre to centre. */
    spacing_m: positive,
    bearing_m: nonNegative,
    heightError_m: nonNegative,
  }),
  /** Vents, drains, bleeds and breakers on the headers. */
  taps: z.array(
    z.strictObject({
      id,
      at: headerPlaceSchema,
      purpose: z.enum(['drain', 'bleed', 'airVent', 'vacuumBreaker']),
      open: z.optional(z.boolean()),
      opensAt_Pa: z.optional(nonNegative),
    }),
  ),
});

export type Collector = z.infer<typeof collectorSchema>;
export type Section = z.infer<typeof sectionSchema>;
export type Bank = z.infer<typeof bankSchema>;
export type TubeBank = z.infer<typeof tubeBankSchema>;
export type CoilBank = z.infer<typeof coilBankSchema>;
export type RatedBank = z.infer<typeof ratedBankSchema>;
export type Handover = z.infer<typeof handoverSchema>;
export type Backing = z.infer<typeof backingSchema>;
