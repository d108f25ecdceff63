import { describe, expect, test } from 'vitest';
import type * as z from 'zod';
import { albedos } from '../src/albedo';
import { backings } from '../src/backings';
import { beaufortScale } from '../src/beaufort';
import { deratings } from '../src/derating';
import { devices } from '../src/devices';
import { exposureSettings, findExposure } from '../src/exposure';
import { filters } from '../src/filters';
import { findSocket, reducingTees, socketRows } from '../src/fittings';
import { findMaterial, materialByTemperature, materials } from '../src/materials';
import { findPipe, findPipeFamily, pipeFamilies, pipes } from '../src/pipes';
import { demoPrices } from '../src/prices';
import { findPump, pumps } from '../src/pumps';
import { findReference, references } from '../src/references';
import { scalds } from '../src/scald';
import { findSky, skies } from '../src/skies';
import { cementCures, cementJoints } from '../src/solventCement';
import { supportSpacings } from '../src/supportSpacing';
import { findSurface, surfaces } from '../src/surfaces';
import { valveCharacteristics, valves } from '../src/valves';
import * as schemas from './schemas';

type Rows = readonly object[];
/** Table, rows, schema, and what makes a row one of its kind. */
const TABLES: ReadonlyArray<readonly [string, Rows, z.ZodType, readonly string[]]> = [
  ['pipe families', pipeFamilies, schemas.pipeFamily, ['id']],
  ['pipes', pipes, schemas.pipe, ['id']],
  ['sockets', socketRows, schemas.socket, ['system', 'nominal']],
  ['reducing tees', reducingTees, schemas.reducingTee, ['system', 'run', 'branch']],
  ['materials', materials, schemas.material, ['id']],
  ['PVC by temperature', materialByTemperature('PVC'), schemas.materialAtTemperature, ['at_C']],
  ['CPVC by temperature', materialByTemperature('CPVC'), schemas.materialAtTemperature, ['at_C']],
  ['surfaces', surfaces, schemas.surface, ['id']],
  ['derating', deratings, schemas.derating, ['material', 'at_C']],
  ['support spacing', supportSpacings, schemas.supportSpacing, ['family', 'nominal']],
  ['cement joints', cementJoints, schemas.cementJoints, ['nominal']],
  ['cement cure', cementCures, schemas.cementCure, ['from', 'over_C']],
  ['scald', scalds, schemas.scald, ['at_C']],
  ['exposure', exposureSettings, schemas.exposure, ['where', 'id']],
  ['Beaufort', beaufortScale, schemas.beaufort, ['force']],
  ['albedo', albedos, schemas.albedo, ['id']],
  ['backings', backings, schemas.backing, ['id']],
  ['pumps', pumps, schemas.pump, ['id']],
  ['filters', filters, schemas.filter, ['id']],
  ['valves', valves, schemas.valve, ['type', 'nominal']],
  ['valve characteristics', valveCharacteristics, schemas.characteristic, ['type']],
  ['devices', devices, schemas.device, ['id']],
  ['skies', skies, schemas.sky, ['id']],
  ['demo prices', demoPrices, schemas.price, ['id', 'per', 'stock_m']],
  ['references', references, schemas.reference, ['key']],
];

describe.each(TABLES)('%s', (_name, rows, schema, keys) => {
  test('every row fits its schema, strictly', () => {
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) {
      const result = schema.safeParse(row);
      expect(result.success, `${JSON.stringify(row)}: ${result.error?.message}`).toBe(true);
    }
  });

  test('no row is there twice', () => {
    const seen = rows.map((row) => keys.map((key) => (row as Record<string, unknown>)[key]).join(' | '));
    expect(new Set(seen).size).toBe(rows.length);
  });

  test('every cited source is in references.json', () => {
    for (const row of rows)
      if ('source' in row)
        for (const key of String(row.source).split(' ')) expect(findReference(key), key).toBeDefined();
  });

  test('a figure lies inside its own interval', () => {
    for (const row of rows as ReadonlyArray<Record<string, unknown>>) {
      if (typeof row.low !== 'number' || typeof row.high !== 'number') continue;
      const figure =
        row.K ?? row.ratio ?? row.albedo ?? row.reflectance ?? row.absorptance ?? row.shareOfClear;
      expect(figure).toBeGreaterThanOrEqual(row.low);
      expect(figure).toBeLessThanOrEqual(row.high);
    }
  });
});

test('find functions find what is there and nothing else', () => {
  expect(findPipe('pvc-sch40-1-1/2')?.label).toBe('PVC sch 40, 1-1/2 in');
  expect(findPipe('pvcu-pn10-50')?.label).toBe('PVC-U PN 10, 50 mm');
  expect(findPipe('pe-irrigation-20')).toMatchObject({ od_m: 0.02, bore_m: 0.0172, material: 'LDPE' });
  expect(findPipeFamily('pvc-sch80')?.fittings).toBe('ips-sch80');
  expect(findSocket('metric', '50')?.socket_m).toBe(0.031);
  expect(findMaterial('PVC')?.conductivity_WmK).toBe(0.16);
  expect(findSurface('flat_black_paint')?.absorptance).toBe(0.95);
  expect(findExposure('pool', 'open')?.where).toBe('pool');
  expect(findPump('variable-1hp')?.speeds).toEqual([0.2, 1]);
  expect(findSky('overcast')?.cloud).toBe(1);
  for (const find of [findPipe, findMaterial, findSurface, findPump, findSky])
    for (const key of ['', '__proto__', 'constructor', 'no such thing']) expect(find(key)).toBeUndefined();
});

test('pipe, surface and derating tables name materials that exist', () => {
  for (const family of pipeFamilies) expect(findMaterial(family.material), family.id).toBeDefined();
  for (const row of deratings) expect(findMaterial(row.material), row.material).toBeDefined();
  for (const row of supportSpacings) expect(findPipe(`${row.family}-${row.nominal}`)).toBeDefined();
});
