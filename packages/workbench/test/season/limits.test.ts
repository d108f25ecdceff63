import { synthesiseYear } from '@sunlap/engine/weather/synthesis';
import type { Project } from '@sunlap/project/schema/project';
import type { Season } from '@sunlap/project/schema/season';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { seasonBasic } from '../../src/season/season';
import { createSeasonCache } from '../../src/season/study';

const plain = startProject({ ...usualAnswers('metric', 38), tubes: 24, passes: 2 });
const HIGH = [8, 10, 14, 19, 24, 29, 32, 31, 27, 21, 14, 9];
const SUN = [2.1, 3, 4.2, 5.4, 6.3, 6.9, 6.9, 6.2, 5, 3.7, 2.4, 1.9];
/** A temperate year, invented; of the other half of the earth by half a year. */
const year = (latitude_deg: number, turn: number, longitude_deg = 10) =>
  synthesiseYear({
    name: 'invented',
    place: { latitude_deg, longitude_deg, elevation_m: 100 },
    utcOffset_h: Math.round(longitude_deg / 15),
    months: HIGH.map((_, m) => ({
      high_C: HIGH[(m + turn) % 12],
      low_C: HIGH[(m + turn) % 12] - 11,
      irradiation_kWhm2: SUN[(m + turn) % 12],
      humidity: 0.6,
      wind_ms: 2.5,
      rain_mm: 40,
    })),
  }).series;
const north = year(38, 0);

describe('limits of the year', () => {
  // The aim: halving the step moves the monthly mean of the water by less than 0.05 K, here with a panel of pipe,
  // its flows, first slugs and pipes, by hand and by a controller that cools at night, covered and heated.
  const months = new Array<boolean>(12).fill(true);
  const plans: [string, Season][] = [
    ['by hand', {}],
    [
      'by a controller that cools at night, under a cover, with a heater',
      {
        run: {
          kind: 'controller',
          onDifference_K: 4,
          offDifference_K: 0.5,
          limit_C: 27,
          from_h: 0,
          to_h: 24,
          nightCooling: true,
        },
        cover: { cover: 'bubble-clear', on: [{ months, from_h: 20, to_h: 9 }] },
        heater: { kind: 'gas', capacity_W: 20_000, setpoint_C: 22, on: [{ months, from_h: 6, to_h: 10 }] },
        splash_m3PerDay: 0.05,
      },
    ],
  ];
  it.each(plans)('%s: halving the step moves no month by 0.05 K', (_, season) => {
    const project: Project = { ...plain, season };
    const cache = createSeasonCache();
    const [hour, half] = [1, 2].map(
      (substeps) => seasonBasic(project, { weather: north, cache, substeps }).result,
    );
    for (let m = 0; m < 12; m++)
      for (const which of ['with', 'without'] as const) {
        const [a, b] = [hour.months[m].pool_C[which]!, half.months[m].pool_C[which]!];
        expect(Math.abs(a.mean - b.mean)).toBeLessThan(0.05);
      }
    expect(hour.balance.residual).toBeLessThan(1e-6);
    expect(half.balance.residual).toBeLessThan(1e-6);
  });

  // Invariant: the other half of the earth half a year later, the panel turned to the north, the clock's noon where it
  // was. The orbit's 3 % and the days of its months are left: 8 % on the heat of the year.
  it('in the south the same year comes half a year later', () => {
    const { placement } = plain.collector;
    const turned: Project = {
      ...plain,
      site: { ...plain.site, latitude_deg: -38 },
      collector: {
        ...plain.collector,
        placement: { ...placement, facing_deg: (placement.facing_deg + 180) % 360 },
      },
    };
    const [a, b] = [
      seasonBasic(plain, { weather: north }).result,
      seasonBasic(turned, { weather: year(-38, 6) }).result,
    ];
    expect(Math.abs(b.year.heat_kWh / a.year.heat_kWh - 1)).toBeLessThan(0.08);
    const warmest = (r: typeof a): number =>
      r.months.reduce((k, m, i) => (m.pool_C.without!.mean > r.months[k].pool_C.without!.mean ? i : k), 0);
    expect((warmest(a) + 6) % 12).toBe(warmest(b));
    // a panel left facing the pole brings less
    const wrong = { ...turned, collector: plain.collector };
    const tilted = (p: Project): Project => ({
      ...p,
      collector: { ...p.collector, placement: { ...p.collector.placement, tilt_deg: 35 } },
    });
    const [right, pole] = [turned, wrong].map(
      (p) => seasonBasic(tilted(p), { weather: year(-38, 6) }).result.year.heat_kWh,
    );
    expect(pole).toBeLessThan(0.9 * right);
  });

  // Invariant: at the equator, and on either side of the date line, the sun of a year is the same sun.
  it('at the equator and across the date line', () => {
    const of = (latitude: number, longitude: number): number =>
      seasonBasic(plain, { weather: year(latitude, 0, longitude) }).result.year.heat_kWh;
    const [west, east] = [of(0, -179), of(0, 179)];
    expect(Math.abs(west / east - 1)).toBeLessThan(0.02);
    expect(west).toBeGreaterThan(0);
  });

  // Invariants: rain replaces water of the mains, and is booked as its own heat.
  it('rain of the climate saves make-up and is booked', () => {
    const dry = { ...north, rain_kgm2: null };
    const [wet, none] = [north, dry].map((weather) => seasonBasic(plain, { weather }).result.year);
    expect(none.heat.without.rain).toBe(0);
    expect(wet.heat.without.rain).not.toBe(0);
    expect(wet.makeUp_m3.without).toBeLessThan(none.makeUp_m3.without);
  });
});
