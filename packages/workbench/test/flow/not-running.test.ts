import { pressureAtElevation } from '@sunlap/engine/fluids/moist-air';
import { waterVapourPressure } from '@sunlap/engine/fluids/water';
import { pieceVolume } from '@sunlap/engine/hydraulics/fill';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { flow } from '../../src/flow/flow';
import { flowBasic } from '../../src/flow/flow-basic';
import { startNotices } from '../../src/flow/notices-start';
import { sayIn } from '../../src/flow/say';
import { still } from '../../src/flow/still';
import { heat } from '../../src/heat/heat';
import { collector, loop, pipe, project, section, TEST_TABLES, valve } from '../fixtures';

const codes = (answer: { notices: { code: string }[] }) => answer.notices.map((n) => n.code);
const start = startProject(usualAnswers('us'));
const lifted = (lift_m: number): Project => startProject({ ...usualAnswers('us'), lift_m });

describe('a collector higher than water can hang', () => {
  // 45 ft over the pool: more than the air carries anywhere on earth
  const answer = flow(lifted(13.7));

  it('is said to be out of reach, first of all, and judged no further', () => {
    expect(answer.result.attainable).toBe(false);
    expect(answer.notices[0]).toMatchObject({ code: 'flow-not-attainable', severity: 'damage' });
    for (const bank of answer.result.collector.banks) expect(bank.headerVerdict).toBeNull();
    expect(answer.result.start).toMatchObject({ leastStartSpeed: null, leastRunSpeed: null, sections: [] });
    expect(codes(answer).filter((c) => /^(header-|air-|section-|pressure-)/.test(c))).toEqual([]);
  });

  it('prints no absolute pressure under that of boiling', () => {
    expect(answer.result.lowestPressure.absolute_Pa).toBeCloseTo(waterVapourPressure(26), 6);
    for (const n of answer.notices) expect(n.message).not.toMatch(/[-−]\d[^;,]* absolute|Only [-−]/);
  });

  it('is told so with the heat', () => {
    const hot = heat(lifted(13.7), { at: '2026-06-21T12:00' });
    expect(hot.notices[0].code).toBe('flow-not-attainable');
    expect(codes(hot).filter((c) => c === 'flow-not-attainable')).toHaveLength(1);
    expect(hot.flow.result.attainable).toBe(false);
  });

  it('begins where the column would boil', () => {
    const found = (lift: number) => flowBasic(lifted(lift)).result;
    // at rest water hangs (p_atm − p_v)/ρg high: 10.0 m at this place's air; moving water less
    const air = pressureAtElevation(start.site.elevation_m);
    const most = (air - waterVapourPressure(26)) / (996.8 * 9.80665);
    expect(found(most - 4).attainable).toBe(true);
    expect(found(most + 3).attainable).toBe(false);
    expect(found(0.3).lowestPressure.absolute_Pa).toBeGreaterThan(waterVapourPressure(26));
  });
});

describe('a collector that the valve passes by', () => {
  const past: Project = {
    ...start,
    loop: { ...start.loop, bypass: { ...start.loop.bypass, toCollector: 0 } as Project['loop']['bypass'] },
  };
  const answer = flow(past);

  it('has no flow, not a solver’s remnant, and no verdict', () => {
    expect(answer.result.flow_m3s).toBeGreaterThan(1e-4);
    const { banks, sections } = answer.result.collector;
    const flows = [
      answer.result.collectorFlow_m3s,
      ...sections.map((s) => s.flow_m3s),
      ...banks.flatMap((b) => [b.flow_m3s, ...b.supplyHeader_m3s, ...b.gatherHeader_m3s]),
      ...banks.flatMap((b) => b.tubes.flatMap((t) => [t.flow_m3s, t.velocity_ms, t.reynolds])),
    ];
    expect(flows.every((q) => Object.is(Math.abs(q), 0))).toBe(true);
    expect(banks.every((b) => b.headerVerdict === null)).toBe(true);
  });

  it('is said to be passed by, not to need a stronger pump', () => {
    expect(codes(answer)).toContain('valve-past-collector');
    expect(codes(answer).filter((c) => /section-|header-/.test(c))).toEqual([]);
  });

  it('gives no heat, and none that a remnant of flow would carry', () => {
    const { result } = heat(past, { at: '2026-06-21T12:00' }, { startUp: false, breaker: false });
    expect([result.heat_W, result.rise_K].every((v) => Object.is(Math.abs(v), 0))).toBe(true);
    expect(result.efficiency).toBeNull();
    for (const bank of result.banks) expect(Math.abs(bank.heat_W)).toBe(0);
  });

  it('is the same behind two hand valves', () => {
    const two = project({
      loop: loop({
        bypass: {
          kind: 'twoValves',
          toCollector: valve('up', 0, { role: 'toCollector' }),
          pastValve: valve('by', 1, { role: 'past' }),
          past: [pipe('past', 1)],
        },
      }),
    });
    expect(codes(flow(two, { tables: TEST_TABLES }))).toContain('valve-past-collector');
  });

  it('has no verdict with the pump standing either', () => {
    const stands = flow({ ...start, loop: { ...start.loop, pump: { ...start.loop.pump, speed: 0 } } });
    expect(stands.result.collector.banks.every((b) => b.headerVerdict === null)).toBe(true);
    expect(codes(stands)).toContain('pump-stopped');
    expect(codes(stands)).not.toContain('valve-past-collector');
  });

  it('keeps what does flow', () => {
    expect([still(-1.4e-14), still(2e-9), still(-2e-9)]).toEqual([0, 2e-9, -2e-9]);
    expect(flow(start).result.collector.banks.every((b) => b.headerVerdict !== null)).toBe(true);
  });
});

describe('a section that lacks head', () => {
  const [at] = start.collector.sections;
  const said = (missingLift_m: number) => {
    const dry = {
      section: at.id,
      aliveAt_m3s: null,
      aliveAtSpeed: null,
      runsDownToSpeed: null,
      runsDownTo_m3s: null,
      missingLift_m,
      cause: null,
    };
    const found = {
      leastFlowAllTubes_m3s: null,
      leastStartSpeed: null,
      leastRunSpeed: null,
      sections: [dry],
    };
    return startNotices(start, found, [{ id: at.id, flow_m3s: 0 }], sayIn('us'), () => null)[0].message;
  };

  it('is told how much, but no trifle', () => {
    expect(said(1.2)).toContain('lacks 3.94 ft');
    expect(said(0.016)).not.toContain('lacks');
  });
});

describe('the first fill', () => {
  const answer = (feed: Project['loop']['feed'], level = 0) => {
    const base = project({
      collector: collector([section('a')]),
      loop: loop({ feed, return: [pipe('back', 6)] }),
    });
    return flowBasic({ ...base, pool: { ...base.pool, waterLevel_m: level } }, { tables: TEST_TABLES })
      .result;
  };
  const of = (length_m: number) =>
    pieceVolume({ length_m, bore_m: TEST_TABLES.sizes(pipe('p', 1).pipe).bore_m });

  it('fills feed, panel and return', () => {
    const found = answer([pipe('feed', 5)]);
    const longer = answer([pipe('feed', 9)]);
    expect(longer.firstFill.volume_m3 - found.firstFill.volume_m3).toBeCloseTo(of(4), 9);
    expect(found.firstFill.volume_m3).toBeGreaterThan(found.collector.volume_m3);
    expect(found.firstFill.poolFall_m).toBeCloseTo(found.firstFill.volume_m3 / 32, 9);
  });

  it('leaves out what never ran dry under the pool’s water', () => {
    const buried = (end: number) => answer([pipe('down', 4, { endHeight_m: end }), pipe('up', 5)]);
    // the first 4 m lie under the water and stay full, as does the part of the rise that does
    expect(
      answer([pipe('down', 4, { endHeight_m: 0.2 }), pipe('up', 5)]).firstFill.volume_m3,
    ).toBeGreaterThan(buried(-1).firstFill.volume_m3 + of(4));
  });
});
