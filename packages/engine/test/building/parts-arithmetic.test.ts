import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cementFor } from '../../src/building/cement';
import { collapsePressure, POLYOLEFIN_POISSON } from '../../src/building/collapse';
import { lengthChange, offsetLeg } from '../../src/building/expansion';
import { headerMarks, leastPitch, nippleLength, pitchError, twistOffset } from '../../src/building/header';
import { closingOf, SHORT_STRAIN } from '../../src/building/order-closing';
import { cheapestPacks } from '../../src/building/packs';
import { splitPipe } from '../../src/building/parts-split';
import { supportPlaces } from '../../src/building/parts-supports';
import { ratedAt, windPressure } from '../../src/building/pressure-rating';
import { DomainError } from '../../src/numeric/errors';
import truth from '../truth/building.json';

const IN = 0.0254;
const PSI = 6894.757;

describe('header of tees and nipples', () => {
  // verified: hand calculation from the standard's dimensions; tolerance is the last digit given
  it.each(truth.leastPitch.rows)(
    'least pitch of %s × %s in',
    (_run, _branch, outside, socket, pitch, within) => {
      const takeOff = (Number(outside) / 2 + 1 / 16) * IN;
      const least = leastPitch({ takeOff_m: takeOff, socket_m: Number(socket) * IN });
      expect(Math.abs(least / IN - Number(pitch))).toBeLessThan(Number(within));
      // at the least pitch the nipple just fills both sockets
      expect(nippleLength(least, takeOff)).toBeCloseTo(2 * Number(socket) * IN, 12);
    },
  );

  it('nests three banks of 1 × 1/2 tees around half-inch tubes, not four', () => {
    const pitch = 2.715 * IN;
    expect(pitch / 3 / IN).toBeCloseTo(truth.nested.between_in, 3);
    expect(pitch / 3 / IN).toBeGreaterThan(truth.nested.tube_in);
    expect(pitch / 4 / IN).toBeLessThan(truth.nested.tube_in);
  });

  it('marks every tee from one end', () => {
    const marks = headerMarks(3, 0.0762, 0.05);
    [0.05, 0.1262, 0.2024].forEach((mark, i) => {
      expect(marks[i]).toBeCloseTo(mark, 12);
    });
  });

  it('adds equal errors, and twists by the tangent', () => {
    // by hand: 17 steps of 1 mm; root of 17
    expect(pitchError(18, 0.001).accumulated_m).toBeCloseTo(0.017, 12);
    expect(pitchError(18, -0.001)).toMatchObject({ accumulated_m: -0.017, withJig_m: 0.001 });
    expect(pitchError(18, 0.001).random_m).toBeCloseTo(0.004123, 6);
    expect(twistOffset(6.096, 1)).toBeCloseTo(0.1064, 4);
    expect(twistOffset(6.096, -1)).toBe(-twistOffset(6.096, 1));
  });
});

describe('packs', () => {
  it('finds the cheapest of all combinations', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.array(
          fc.record({ holds: fc.integer({ min: 1, max: 12 }), price: fc.integer({ min: 0, max: 30 }) }),
          {
            minLength: 1,
            maxLength: 3,
          },
        ),
        (needed, offers) => {
          // every combination that could make sense
          let best = Infinity;
          const all = (k: number, held: number, price: number): void => {
            if (held >= needed) best = Math.min(best, price);
            if (k === offers.length || held >= needed) return;
            for (let q = 0; held + q * offers[k].holds <= needed + offers[k].holds; q++)
              all(k + 1, held + q * offers[k].holds, price + q * offers[k].price);
          };
          all(0, 0, 0);
          const choice = cheapestPacks(needed, offers)!;
          expect(choice.price).toBeCloseTo(best, 6);
          const held = choice.packs.reduce((sum, n, j) => sum + n * offers[j].holds, 0);
          expect(held - needed).toBe(choice.left);
          expect(choice.left).toBeGreaterThanOrEqual(0);
        },
      ),
      { numRuns: 150, seed: 4 },
    );
  });

  it('leaves spares where they cost nothing, and says when nothing is sold', () => {
    const offers = [
      { holds: 1, price: 0.8 },
      { holds: 10, price: 6.4 },
    ];
    expect(cheapestPacks(18, offers)).toEqual({ packs: [0, 2], price: 12.8, left: 2 });
    expect(cheapestPacks(3, offers)).toEqual({ packs: [3, 0], price: 2.4, left: 0 });
    expect(cheapestPacks(0, [])).toEqual({ packs: [], price: 0, left: 0 });
    expect(cheapestPacks(1, [])).toBeNull();
  });
});

describe('cement', () => {
  it('counts joints by size, with primer half as much', () => {
    // by hand: 120/300 + 45/90 = 0.9 qt, a half more is 1.35
    const need = cementFor(
      [
        { joints: 120, perQuart: 300 },
        { joints: 45, perQuart: 90 },
      ],
      0.5,
    );
    expect(need.cement_qt).toBeCloseTo(1.35, 12);
    expect(need.primer_qt).toBeCloseTo(0.675, 12);
  });
});

describe('expansion', () => {
  const { length_ft, change_F, perF, change_in } = truth.expansion;
  it('of 20 ft over 60 °F meets the hand calculation', () => {
    const change = lengthChange(perF * 1.8, length_ft * 12 * IN, change_F / 1.8);
    expect(Math.abs(change / IN - change_in)).toBeLessThan(0.005);
    expect(lengthChange(5e-5, 6, -20)).toBe(-lengthChange(5e-5, 6, 20));
  });

  // verified by hand: tolerance is the last digit given
  it.each(truth.offset.rows)('leg at %d °F', (_at, modulus, stress, leg) => {
    const { outside_in, change_in: change } = truth.offset;
    const found = offsetLeg(modulus! * PSI, outside_in * IN, change * IN, stress! * PSI) / IN;
    expect(Math.abs(found - leg!)).toBeLessThan(0.05);
  });

  it('grows with the root of the change', () => {
    expect(offsetLeg(2e9, 0.02, 0.04, 8e6) / offsetLeg(2e9, 0.02, 0.01, 8e6)).toBeCloseTo(2, 12);
  });
});

describe('pressure and vacuum', () => {
  // verified by hand: tolerance is the last digit given
  it.each(truth.collapse.rows)('DR %d under full vacuum', (ratio, kPa) => {
    const { modulus_Pa, poisson } = truth.collapse;
    expect(Math.abs(collapsePressure(modulus_Pa, poisson, ratio!) / 1000 - kPa!)).toBeLessThan(0.5);
    expect(poisson).toBe(POLYOLEFIN_POISSON);
  });

  it('derates, and asks nothing of a pipe without pressure', () => {
    // half-inch sch 40, 600 psi, at 60 °C × 0.22: 132 psi
    expect(ratedAt(600 * PSI, 0.22, 0).allowed_Pa / PSI).toBeCloseTo(132, 9);
    expect(ratedAt(600 * PSI, 0.22, 66 * PSI)).toMatchObject({ ok: true, share: 0.5 });
    expect(ratedAt(600 * PSI, 0, 1)).toMatchObject({ ok: false, share: Infinity });
    expect(ratedAt(600 * PSI, 0, -5)).toMatchObject({ ok: true, share: 0 });
    expect(windPressure(40)).toBeCloseTo(980.8, 9);
  });
});

describe('long pipes', () => {
  it('are made of whole sticks and one rest, as long as asked', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.boolean(),
        (length, shift, held) => {
          const supports = held ? supportPlaces(length, 0.762, 0.1) : [];
          const made = splitPipe(length, 6.096, 0.0024, 0.035, { shift_m: shift, supports_m: supports });
          const total = made.cuts_m.reduce((a, b) => a + b, 0) + made.joints_m.length * 0.0024;
          expect(total).toBeCloseTo(length, 9);
          expect(made.cuts_m.length).toBe(made.joints_m.length + 1);
          // never more joints than needed
          expect(made.joints_m.length).toBe(
            length <= 6.096 ? 0 : Math.ceil((length - 6.096 - 1e-9) / 6.0984),
          );
          for (const cut of made.cuts_m) {
            expect(cut).toBeGreaterThan(0);
            expect(cut).toBeLessThanOrEqual(6.096 + 1e-9);
          }
        },
      ),
      { numRuns: 300, seed: 9 },
    );
  });

  it('keep a single joint off the supports, and do not line up when shifted', () => {
    const supports = supportPlaces(9, 0.762, 0.1);
    const even = splitPipe(9, 6.096, 0.0024, 0.035, { supports_m: supports });
    const odd = splitPipe(9, 6.096, 0.0024, 0.035, { supports_m: supports, shift_m: 0.8 });
    for (const [joint] of [even.joints_m, odd.joints_m])
      expect(Math.min(...supports.map((s) => Math.abs(s - joint)))).toBeGreaterThan(0.099);
    expect(Math.abs(even.joints_m[0] - odd.joints_m[0])).toBeGreaterThan(0.5);
    expect(splitPipe(9, 6.096, 0.0024, 0.035).cuts_m[0]).toBe(6.096);
  });

  it('keep every joint of a long run off the supports where there is room to', () => {
    // 19 m with supports every 0.752 m: whole sticks would bring joints 2 and 3 within 26 and 56 mm of one
    const held = supportPlaces(19, 0.762, 0.1);
    const long = splitPipe(19, 6.096, 0.0024, 0.035, { supports_m: held });
    expect(long.joints_m).toHaveLength(3);
    fc.assert(
      fc.property(fc.double({ min: 6.2, max: 40, noNaN: true }), (length) => {
        const supports = supportPlaces(length, 0.762, 0.1);
        const made = splitPipe(length, 6.096, 0.0024, 0.035, { supports_m: supports });
        const slack = made.cuts_m.length * 6.096 - length;
        // with a spacing to give for every joint there is always a way
        if (slack < 0.3 * made.joints_m.length) return;
        for (const joint of made.joints_m)
          expect(Math.min(...supports.map((s) => Math.abs(s - joint)))).toBeGreaterThan(0.0999);
      }),
      { numRuns: 200, seed: 4 },
    );
  });

  it('stand on supports no further apart than the spacing', () => {
    const places = supportPlaces(6, 0.762, 0.1);
    // by hand: 5.8 m in 8 steps of 0.725
    expect(places).toHaveLength(9);
    expect(places[1] - places[0]).toBeCloseTo(0.725, 12);
    expect(places[8]).toBeCloseTo(5.9, 12);
    expect(supportPlaces(0.2, 0.762, 0.1)).toEqual([0.1]);
  });
});

describe('closing the second header', () => {
  it('goes at once with few joints, by bowing long tubes, else tee by tee', () => {
    expect(closingOf(4, 6, 0.0213, 0.0175).way).toBe('atOnce');
    expect(closingOf(18, 6, 0.0213, 0.0175).way).toBe('bowed');
    expect(closingOf(18, 0.8, 0.0334, 0.0222).way).toBe('teeByTee');
    // by hand: y = 2/3 · 1/200 · 1² / 0.02 = 0.167 m, 3/5 · y² / 1 = 16.7 mm
    expect(closingOf(18, 1, 0.02, 0.0166).way).toBe('bowed');
    expect(closingOf(18, 1, 0.02, 0.0168).way).toBe('teeByTee');
    // no further than a quarter of the tube: 3/5 · 6/16 = 225 mm
    expect(closingOf(18, 6, 0.02, 0.23).way).toBe('teeByTee');
    expect(SHORT_STRAIN).toBe(1 / 200);
  });
});

describe('misuse', () => {
  it('is refused, NaN too', () => {
    const n = Number.NaN;
    for (const call of [
      () => nippleLength(n, 0),
      () => nippleLength(1, -1),
      () => leastPitch({ takeOff_m: n, socket_m: 1 }),
      () => leastPitch({ takeOff_m: 1, socket_m: n }),
      () => pitchError(0, 0),
      () => pitchError(2, n),
      () => twistOffset(1, 90),
      () => twistOffset(n, 1),
      () => headerMarks(1.5, 1, 1),
      () => lengthChange(n, 1, 1),
      () => lengthChange(1, n, 1),
      () => lengthChange(1, 1, n),
      () => offsetLeg(0, 1, 1, 1),
      () => offsetLeg(1, n, 1, 1),
      () => offsetLeg(1, 1, n, 1),
      () => offsetLeg(1, 1, 1, 0),
      () => ratedAt(n, 1, 1),
      () => ratedAt(1, 2, 1),
      () => ratedAt(1, 1, n),
      () => windPressure(n),
      () => collapsePressure(n, 0.4, 11),
      () => collapsePressure(1, 0.6, 11),
      () => collapsePressure(1, 0.4, 2),
      () => cementFor([{ joints: n, perQuart: 1 }], 0),
      () => cementFor([{ joints: 1, perQuart: 0 }], 0),
      () => cementFor([], n),
      () => cheapestPacks(1.5, []),
      () => cheapestPacks(1, [{ holds: 0, price: 1 }]),
      () => cheapestPacks(1, [{ holds: 1, price: n }]),
      () => splitPipe(n, 1, 0, 0),
      () => splitPipe(1, 0, 0, 0),
      () => splitPipe(1, 1, 1, 0),
      () => splitPipe(1, 1, 0, 1),
      () => supportPlaces(n, 1, 0),
      () => supportPlaces(1, 0, 0),
      () => supportPlaces(1, 1, n),
      () => closingOf(0, 1, 1, 1),
      () => closingOf(1, n, 1, 1),
      () => closingOf(1, 1, 0, 1),
      () => closingOf(1, 1, 1, n),
      () => closingOf(1, 1, 1, 1, 0),
    ])
      expect(call).toThrow(DomainError);
  });
});
