import type { Bank, HeaderEnd, Plumbing, Section } from '@sunlap/project/schema/collector';
import type { Bypass } from '@sunlap/project/schema/loop';
import type { Project } from '@sunlap/project/schema/project';
import fc from 'fast-check';
import { collector, loop, pipe, project, section, tubes, valve } from './fixtures';

const end = fc.constantFrom<HeaderEnd>('first', 'last');
const ends = fc.oneof(
  { weight: 4, arbitrary: end.map((e) => [e]) },
  { weight: 1, arbitrary: fc.constant<HeaderEnd[]>(['first', 'last']) },
);
const tubePipe = fc.constantFrom('half', 'threeQuarter', 'thin');
const headerPipe = fc.constantFrom('one', 'oneAndHalf', 'two', 'three');

const tubeBank = (id: string): fc.Arbitrary<Bank> =>
  fc
    .record({
      count: fc.integer({ min: 2, max: 60 }),
      length_m: fc.double({ min: 0.5, max: 30, noNaN: true }),
      pitch_m: fc.double({ min: 0.04, max: 0.3, noNaN: true }),
      pipe: tubePipe,
      supply: headerPipe.map((p) => ({ pipe: p })),
      gather: headerPipe.map((p) => ({ pipe: p })),
      across_m: fc.double({ min: 0, max: 1, noNaN: true }),
      blocked: fc.uniqueArray(fc.integer({ min: 1, max: 60 }), { maxLength: 5 }),
      airBound: fc.uniqueArray(fc.integer({ min: 1, max: 60 }), { maxLength: 3 }),
      fall_mPerM: fc.constantFrom(0, 0.01, -0.02),
    })
    .map((o) => tubes(id, o));

const coilBank = (id: string): fc.Arbitrary<Bank> =>
  fc.record({
    kind: fc.constant('coil' as const),
    id: fc.constant(id),
    across_m: fc.constant(0),
    depth_m: fc.constant(0.02),
    count: fc.integer({ min: 1, max: 8 }),
    join: fc.constantFrom('parallel' as const, 'series' as const),
    pipe: tubePipe,
    length_m: fc.double({ min: 10, max: 100, noNaN: true }),
    shape: fc.constantFrom('flat' as const, 'helix' as const),
    innerDiameter_m: fc.constant(0.4),
    outerDiameter_m: fc.double({ min: 0.5, max: 1.5, noNaN: true }),
    supply: fc.option(
      headerPipe.map((p) => ({ pipe: p })),
      { nil: undefined },
    ),
    gather: fc.option(
      headerPipe.map((p) => ({ pipe: p })),
      { nil: undefined },
    ),
  });

const ratedBank = (id: string): fc.Arbitrary<Bank> =>
  fc.record({
    kind: fc.constant('rated' as const),
    id: fc.constant(id),
    across_m: fc.constant(0),
    depth_m: fc.constant(0.02),
    count: fc.integer({ min: 1, max: 6 }),
    join: fc.constantFrom('parallel' as const, 'series' as const),
    area_m2: fc.constant(3.6),
    length_m: fc.constant(3),
    width_m: fc.constant(1.2),
    eta0: fc.constant(0.85),
    bu_sPerM: fc.constant(0.04),
    b1_Wm2K: fc.constant(11.5),
    b2_JPerm3K: fc.constant(4.4),
    loss: fc.constant({ flow_m3s: 2e-4, drop_Pa: 3000 }),
    headerPipe: fc.option(headerPipe, { nil: undefined }),
  });

const bank = (id: string): fc.Arbitrary<Bank> =>
  fc.oneof(
    { weight: 6, arbitrary: tubeBank(id) },
    { weight: 1, arbitrary: coilBank(id) },
    { weight: 1, arbitrary: ratedBank(id) },
  );

const oneSection = (id: string, banks: number): fc.Arbitrary<Section> =>
  fc
    .record({
      banks: fc.tuple(...Array.from({ length: banks }, (_, k) => bank(`${id}${k}`))),
      inletEnds: ends,
      outletEnds: ends,
      inletSide: fc.constantFrom('near' as const, 'far' as const),
      direction: fc.constantFrom('contour' as const, 'slope' as const, 'angle' as const),
      angle_deg: fc.integer({ min: -170, max: 180 }),
      u_m: fc.double({ min: 0, max: 20, noNaN: true }),
      v_m: fc.double({ min: 0, max: 5, noNaN: true }),
      joins: fc.array(fc.tuple(end, end, fc.boolean()), { minLength: banks, maxLength: banks }),
    })
    .map(({ joins, ...o }) =>
      section(id, {
        ...o,
        handovers: joins.slice(1).map(([from, to, both]) => ({
          joins: both
            ? [
                { from: 'first' as const, to: 'first' as const },
                { from: 'last' as const, to: 'last' as const },
              ]
            : [{ from, to }],
        })),
      }),
    );

/** Tree of series and parallel over the sections, with pipes and valves here and there. */
function plumbing(ids: readonly string[], bits: readonly number[], depth = 0): Plumbing {
  const bit = bits[depth % bits.length];
  const dress = (part: Plumbing): Plumbing => ({
    ...part,
    ...(bit % 3 === 0
      ? { before: [pipe(`b${depth}${ids[0]}`, 2), valve(`v${depth}${ids[0]}`, bit % 7 === 0 ? 0 : 0.7)] }
      : {}),
    ...(bit % 5 === 0 ? { after: [pipe(`a${depth}${ids[0]}`, 3)] } : {}),
  });
  if (ids.length === 1) return dress({ section: ids[0] });
  const cut = 1 + (bit % (ids.length - 1));
  const parts = [plumbing(ids.slice(0, cut), bits, depth + 1), plumbing(ids.slice(cut), bits, depth + 2)];
  return dress(bit % 2 === 0 ? { parallel: parts } : { series: parts });
}

const bypass: fc.Arbitrary<Bypass> = fc.oneof(
  fc.constant<Bypass>({ kind: 'none' }),
  fc
    .constantFrom(0, 0.1, 0.5, 0.9, 1)
    .map((toCollector): Bypass => ({ kind: 'threeWay', id: 'by', toCollector, past: [pipe('past', 1)] })),
  fc.tuple(fc.constantFrom(0, 0.3, 1), fc.constantFrom(0, 0.3, 1), fc.boolean()).map(
    ([to, past, empty]): Bypass => ({
      kind: 'twoValves',
      toCollector: valve('to', to, { role: 'toCollector' }),
      pastValve: valve('by', past, { role: 'past' }),
      past: empty ? [] : [pipe('past', 1)],
    }),
  ),
);

/** A legal project of 1–8 banks in 1–4 sections, with any feed, bypass and outlet. */
export const anyProject: fc.Arbitrary<Project> = fc
  .record({
    split: fc.array(fc.integer({ min: 1, max: 2 }), { minLength: 1, maxLength: 4 }),
    bits: fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 3, maxLength: 8 }),
    bypass,
    speed: fc.constantFrom(0, 0.2, 0.5, 1, 1.2),
    tilt_deg: fc.integer({ min: 0, max: 90 }),
    facing_deg: fc.integer({ min: 0, max: 359 }),
    height: fc.double({ min: -0.5, max: 6, noNaN: true }),
    outlet: fc.constantFrom('under', 'over', 'own', 'two'),
    suctions: fc.constantFrom('one', 'two', 'typed'),
    breaker: fc.constantFrom('none', 'return', 'bleed'),
    check: fc.boolean(),
    split2: fc.boolean(),
  })
  .chain((o) =>
    fc.tuple(...o.split.map((banks, i) => oneSection('abcd'[i], banks))).map((sections): Project => {
      const feed = o.split2
        ? [
            pipe('f1', 3),
            {
              kind: 'split' as const,
              id: 's',
              tee: true,
              branches: [[pipe('x', 4, { pipe: 'one' })], [pipe('y', 6, { pipe: 'one' })]],
            },
            pipe('f2', 2),
          ]
        : [pipe('feed', 10, { parallel: 2, pipe: 'one' })];
      const back = [
        ...(o.breaker === 'return'
          ? [{ kind: 'tap' as const, id: 'vb', purpose: 'vacuumBreaker' as const, opensAt_Pa: 3000 }]
          : []),
        ...(o.breaker === 'bleed'
          ? [{ kind: 'tap' as const, id: 'bl', purpose: 'bleed' as const, open: true }]
          : []),
        ...(o.check ? [{ kind: 'checkValve' as const, id: 'cv' }] : []),
        pipe('back', 12, { endHeight_m: 0.4, profile: [{ at_m: 4, height_m: 1 }] }),
      ];
      const own = { id: 'own', kind: 'overWater' as const, height_m: 0.3, path: [pipe('o', 2)] };
      const base = loop();
      return project({
        collector: collector(
          [...sections],
          plumbing(
            sections.map((s) => s.id),
            o.bits,
          ),
          {
            placement: {
              x_m: 0,
              y_m: 5,
              facing_deg: o.facing_deg,
              tilt_deg: o.tilt_deg,
              lowestHeight_m: o.height,
              mounting: 'rack',
            },
          },
        ),
        loop: loop({
          bypass: o.bypass,
          feed,
          return: back,
          pump: { ...base.pump, speed: o.speed },
          ...(o.outlet === 'own' ? { returnOutlet: own } : {}),
          ...(o.outlet === 'over'
            ? { outlets: [{ id: 'fall', kind: 'overWater', height_m: 0.4, path: [] }] }
            : {}),
          ...(o.outlet === 'two'
            ? {
                outlets: [
                  { ...base.outlets[0], id: 'o1' },
                  { ...base.outlets[0], id: 'o2', path: [pipe('far', 5)] },
                ],
              }
            : {}),
          ...(o.suctions === 'one'
            ? {}
            : {
                suctions: [
                  { ...base.suctions[0], ...(o.suctions === 'typed' ? { share: 0.7 } : {}) },
                  { id: 'drain', kind: 'mainDrain', depth_m: 1.8, path: [pipe('drain', 12)] },
                ],
              }),
        }),
      });
    }),
  );
