import * as z from 'zod/mini';

/** Finite number; Zod's number already refuses NaN and ±∞. */
export const finite = z.number();
export const positive = z.number().check(z.positive());
export const nonNegative = z.number().check(z.nonnegative());
/** A share or an opening, 0…1. */
export const fraction = z.number().check(z.gte(0), z.lte(1));
export const azimuth_deg = z.number().check(z.gte(0), z.lt(360));
export const count = z.int().check(z.gte(1), z.lte(500));
export const text = z.string().check(z.maxLength(10_000));
export const name = z.string().check(z.minLength(1), z.maxLength(200));
/** Identifier inside the file: letters, digits, dash, dot, underscore; begins with a letter or digit. */
export const id = z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/, 'letters, digits, - . _'));
/** Designation of a pipe in the tables, e.g. `pvc-sch40-1/2`. */
export const pipeId = z.string().check(z.minLength(1), z.maxLength(80));
/** Calendar day, ISO 8601. */
export const day = z
  .string()
  .check(z.regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'a date as 2026-04-12'));
/** Local wall-clock time at the site, ISO 8601 without zone. */
export const localTime = z
  .string()
  .check(
    z.regex(
      /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d$/,
      'a local time as 2026-04-12T11:00',
    ),
  );

/** One measured or published point of flow against pressure drop. */
export const lossPoint = z.strictObject({ flow_m3s: positive, drop_Pa: nonNegative });
