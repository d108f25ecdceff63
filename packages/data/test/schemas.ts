import * as z from 'zod';
import type { Albedo } from '../src/albedo';
import type { Backing } from '../src/backings';
import type { Beaufort } from '../src/beaufort';
import type { Derating } from '../src/derating';
import type { DeviceOnShelf } from '../src/devices';
import type { ExposureSetting } from '../src/exposure';
import type { FilterOnShelf } from '../src/filters';
import type { ReducingTee, Socket } from '../src/fittings';
import type { Material, MaterialAtTemperature } from '../src/materials';
import type { Pipe, PipeFamily } from '../src/pipes';
import type { DemoPrice } from '../src/prices';
import type { PumpOnShelf } from '../src/pumps';
import type { Reference } from '../src/references';
import type { Scald } from '../src/scald';
import type { Sky } from '../src/skies';
import type { CementCure, CementJoints } from '../src/solventCement';
import type { SupportSpacing } from '../src/supportSpacing';
import type { Surface } from '../src/surfaces';
import type { ValveCharacteristicRow, ValveSize } from '../src/valves';

const text = z.string().min(1);
const positive = z.number().positive();
const size = z.number().min(1e-4).max(1);
const share = z.number().min(0).max(1);
const valveType = z.enum(['ball', 'gate', 'globe', 'needle', 'butterfly', 'diverter', 'check']);
const system = z.enum(['ips-sch40', 'ips-sch80', 'metric']);
const provenance = {
  source: z.string().regex(/^[A-Za-z0-9-]+( [A-Za-z0-9-]+)*$/),
  known: z.enum(['read', 'from memory', 'derived', 'common practice', 'judgement', 'invented']),
  range: text,
  note: text.optional(),
};
const rising = z.array(z.number()).min(2);

/** One strict schema per row type; the annotation makes the compiler hold type and schema together. */
export const pipeFamily: z.ZodType<PipeFamily> = z.strictObject({
  id: text,
  label: text,
  material: text,
  fittings: system.optional(),
  ratingAt_C: z.number().min(15).max(30),
  ...provenance,
});
export const pipe: z.ZodType<Pipe> = z.strictObject({
  id: text,
  label: text,
  family: text,
  material: text,
  nominal: text,
  od_m: size,
  wall_m: size,
  bore_m: size,
  rating_Pa: positive,
  roughness_m: z.literal(1.5e-6),
  ...provenance,
});
export const socket: z.ZodType<Socket> = z.strictObject({
  system,
  nominal: text,
  socket_m: size,
  takeOff90_m: size,
  takeOff45_m: size,
  couplingGap_m: size,
  entrance_m: size.optional(),
  bottom_m: size.optional(),
  ...provenance,
});
export const reducingTee: z.ZodType<ReducingTee> = z.strictObject({
  system,
  run: text,
  branch: text,
  takeOffRun_m: size,
  takeOffBranch_m: size,
  socketRun_m: size,
  socketBranch_m: size,
  ...provenance,
});
export const material: z.ZodType<Material> = z.strictObject({
  id: text,
  label: text,
  density_kgm3: z.number().min(850).max(1700),
  short_Pa: positive,
  long_Pa: z.tuple([positive, positive]),
  hotLong_Pa: positive,
  conductivity_WmK: z.number().min(0.05).max(1),
  heat_JkgK: z.number().min(700).max(2500),
  expansion_perK: z.number().min(3e-5).max(3e-4),
  expansionRange_perK: z.tuple([positive, positive]),
  most_C: z.number().min(40).max(100),
  softens_C: z.number().min(40).max(120).optional(),
  emittance: share,
  ...provenance,
});
export const materialAtTemperature: z.ZodType<MaterialAtTemperature> = z.strictObject({
  material: text,
  at_C: z.number().min(20).max(100),
  modulus_Pa: positive,
  stress_Pa: positive.optional(),
  ...provenance,
});
export const surface: z.ZodType<Surface> = z.strictObject({
  id: text,
  label: text,
  absorptance: share,
  low: share,
  high: share,
  emittance: share,
  ...provenance,
});
export const derating: z.ZodType<Derating> = z.strictObject({
  material: text,
  at_C: z.number().min(20).max(100),
  factor: share,
  published: z.tuple([share, share]).optional(),
  ...provenance,
});
export const supportSpacing: z.ZodType<SupportSpacing> = z.strictObject({
  family: text,
  nominal: text,
  at_C: rising,
  spacing_m: rising,
  ...provenance,
});
export const cementJoints: z.ZodType<CementJoints> = z.strictObject({
  nominal: text,
  jointsPerQuart: z.int().positive(),
  ...provenance,
});
export const cementCure: z.ZodType<CementCure> = z.strictObject({
  from: text,
  to: text,
  over_C: z.number(),
  upTo_C: z.number(),
  set_s: positive,
  cureLow_s: positive,
  cureHigh_s: positive,
  ...provenance,
});
export const scald: z.ZodType<Scald> = z.strictObject({
  at_C: z.number().min(43).max(70),
  secondDegree_s: positive,
  thirdDegree_s: positive,
  ...provenance,
});
export const exposure: z.ZodType<ExposureSetting> = z.strictObject({
  where: z.enum(['collector', 'pool']),
  id: z.enum(['open', 'someShelter', 'sheltered', 'veryShelteredCourt']),
  label: text,
  ratio: share,
  low: share,
  high: share,
  ...provenance,
});
export const beaufort: z.ZodType<Beaufort> = z.strictObject({
  force: z.int().min(0).max(12),
  name: text,
  words: text,
  low_ms: z.number().min(0),
  high_ms: positive,
  ...provenance,
});
export const albedo: z.ZodType<Albedo> = z.strictObject({
  id: text,
  label: text,
  albedo: share,
  low: share,
  high: share,
  ...provenance,
});
export const backing: z.ZodType<Backing> = z.strictObject({
  id: text,
  kind: z.enum(['none', 'board', 'roof', 'ground', 'membrane']),
  label: text,
  reflectance: share,
  low: share,
  high: share,
  emittance: share,
  backLoss_Wm2K: z.number().min(0).max(20),
  ...provenance,
});
export const pump: z.ZodType<PumpOnShelf> = z.strictObject({
  id: text,
  label: text,
  kind: z.enum(['single', 'twoSpeed', 'variable']),
  rated_W: positive,
  shutOffHead_m: positive,
  mostFlow_m3s: positive,
  coefficient_s2m5: positive,
  wireToWater: z.number().min(0.2).max(0.6),
  driveLoad_W: z.number().min(0).max(300),
  speeds: z.array(share).min(1).max(4),
  ...provenance,
});
export const filter: z.ZodType<FilterOnShelf> = z.strictObject({
  id: text,
  kind: z.enum(['sand', 'cartridge', 'diatomite']),
  label: text,
  flow_m3s: positive,
  cleanDrop_Pa: positive,
  viscousShare: share,
  cleanAtRise_Pa: positive,
  ...provenance,
});
export const valve: z.ZodType<ValveSize> = z.strictObject({
  type: valveType,
  nominal: text,
  metric: text,
  kv_m3h: positive,
  ...provenance,
});
export const characteristic: z.ZodType<ValveCharacteristicRow> = z.strictObject({
  type: valveType,
  opening: rising,
  kvShare: rising,
  ...provenance,
});
export const device: z.ZodType<DeviceOnShelf> = z.strictObject({
  id: text,
  type: z.enum(['heater', 'chlorinator', 'feeder', 'flowMeter', 'strainer', 'other']),
  label: text,
  nominal: text,
  kv_m3h: positive,
  minFlow_m3s: positive.optional(),
  ...provenance,
});
export const sky: z.ZodType<Sky> = z.strictObject({
  id: z.enum(['clear', 'hazy', 'thinCloud', 'halfCloud', 'overcast']),
  words: text,
  shareOfClear: positive,
  low: positive,
  high: positive,
  linkeTurbidity: z.number().min(1).max(10),
  cloud: share,
  cloudLow: share,
  cloudHigh: share,
  ...provenance,
});
export const price: z.ZodType<DemoPrice> = z.strictObject({
  id: text,
  label: text.optional(),
  per: z.enum(['stick', 'coil', 'each', 'bag', 'can', 'kWh']),
  price: positive,
  stock_m: positive.optional(),
  packOf: z.int().min(2).optional(),
  ...provenance,
});
export const reference: z.ZodType<Reference> = z.strictObject({
  key: z.string().regex(/^[a-z][A-Za-z0-9-]*$/),
  authors: text,
  year: z.int().min(1800).max(2026),
  title: text,
  where: text,
});
