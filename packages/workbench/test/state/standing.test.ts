import { readFileSync } from 'node:fs';
import type { Repair } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { ahead } from '../../src/ahead/ahead';
import { readForecast } from '../../src/ahead/forecast';
import { build } from '../../src/build/build';
import { check } from '../../src/check/check';
import { firstReadouts } from '../../src/first/first-readouts';
import { flow } from '../../src/flow/flow';
import { flowBasic } from '../../src/flow/flow-basic';
import { heat } from '../../src/heat/heat';
import { heatBasic } from '../../src/heat/heat-basic';
import { heatStart } from '../../src/heat/heat-start';
import { seasonBasic } from '../../src/season/season';
import { plugNotices } from '../../src/state/plug-notices';
import { asItStands, openPlugs } from '../../src/state/standing';
import { stateAt } from '../../src/state/state-at';
import { collector, loop, project, section, tubes } from '../fixtures';

const repair = (over: Partial<Repair>): Repair => ({
  id: 'r',
  date: '2026-05-25',
  section: 'a',
  bank: 'a1',
  tube: 3,
  what: 'plugged',
  ...over,
});
const lived = (repairs: Repair[], over: Partial<Project> = {}) =>
  project({ collector: collector([section('a')]), repairs, ...over });
const blocked = (p: Project) => asItStands(p).collector.sections[0].banks[0].blocked ?? [];

describe('the heater as it stands', () => {
  it('has the tubes plugged that no later mending put back', () => {
    expect(blocked(lived([repair({})]))).toEqual([3]);
    const mended = repair({ id: 'm', date: '2026-09-30', what: 'replaced' });
    expect(blocked(lived([mended, repair({})]))).toEqual([]);
    expect(blocked(lived([repair({}), repair({ ...mended, tube: 4 })]))).toEqual([3]);
    const all = repair({ id: 'all', date: '2026-09-30', what: 'cleaned', tube: undefined });
    expect(blocked(lived([repair({}), repair({ id: 'r2', tube: 5 }), all]))).toEqual([]);
    expect(openPlugs(lived([repair({ what: 'other' })]))).toEqual([]);
  });

  it('was described whole by the latest state: what was plugged before it is over', () => {
    const state = {
      id: 's',
      from: '2026-06-01',
      name: 'Rebuilt',
      collector: collector([section('a')]),
      loop: loop(),
    };
    expect(blocked(lived([repair({})], { asBuilt: [state] }))).toEqual([]);
    expect(blocked(lived([repair({ date: '2026-06-01' })], { asBuilt: [state] }))).toEqual([3]);
  });

  it('keeps marks of the drawing, is itself where nothing is plugged, and is done once for all', () => {
    const plain = lived([repair({ what: 'cleaned' })]);
    expect(asItStands(plain)).toBe(plain);
    const banks = [tubes('a1', { blocked: [6] })];
    const marked = project({
      collector: collector([section('a', { banks })]),
      repairs: [repair({}), repair({ id: 'c', tube: 6, what: 'cleaned' })],
    });
    expect(blocked(marked)).toEqual([3, 6]);
    const once = asItStands(marked);
    expect(asItStands(once)).toBe(once);
    // layouts and years are kept by the collector itself
    expect(asItStands({ ...marked, name: 'Other' }).collector).toBe(once.collector);
    expect(asItStands({ ...marked, repairs: [] }).collector).toBe(marked.collector);
  });

  it('leaves a day before the repair as it was', () => {
    const p = lived([repair({})]);
    const before = asItStands(stateAt(p, '2026-05-24').project);
    expect(before.collector.sections[0].banks[0].blocked ?? []).toEqual([]);
    expect(blocked(stateAt(p, '2026-05-25').project)).toEqual([3]);
  });

  it('says which tubes those are, and since when', () => {
    const found = plugNotices(lived([repair({ id: 'm', what: 'cleaned', date: '2026-01-01' }), repair({})]));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ code: 'tube-plugged', severity: 'heat', path: '/repairs/1' });
    expect(found[0].message).toMatch(
      /^Tube 3 of .* is plugged \(repair of 2026-05-25\): counted as carrying nothing/,
    );
    expect(plugNotices(lived([repair({ tube: 99 })]))).toEqual([]);
  });
});

describe('every answer for now runs it', () => {
  const quince: Project = JSON.parse(
    readFileSync(new URL('../../../../examples/quince-yard.json', import.meta.url), 'utf8'),
  );
  const moment = {
    at: '2026-06-21T12:00',
    water_C: 26,
    air_C: 28,
    dewPoint_C: 8,
    wind_ms: 2,
    sky: 'clear',
  } as const;
  const tube = (answer: { result: ReturnType<typeof flow>['result'] }) =>
    answer.result.collector.banks.find((b) => b.id === 'B2')!.tubes.find((t) => t.position === 11)!;
  const still = { startUp: false, breaker: false };

  it.each([
    ['flow', () => flow(quince, still)],
    ['flow of a frame', () => flowBasic(quince)],
    ['heat', () => heat(quince, moment, still).flow],
    ['heat of a frame', () => heatBasic(quince, moment, { day: false }).flow],
  ])('%s: tube 11 of B2 is plugged until autumn', (_, run) => {
    const answer = run();
    expect(tube(answer)).toMatchObject({ flow_m3s: 0, state: 'blocked' });
    expect(answer.result.collector.tubesWithoutWater).toBe(1);
  });

  it('starts with it too', () => {
    const { flow: started } = heatStart(lived([repair({})]), moment);
    expect(started.result.collector.banks[0].tubes.filter((t) => t.state === 'blocked')).toHaveLength(1);
  });

  it('says so once, in the check too', () => {
    const small = lived([repair({})]);
    for (const { notices } of [flow(small, still), heat(small, moment, still), check(small, still)]) {
      expect(notices.filter((n) => n.code === 'tube-plugged')).toHaveLength(1);
      expect(notices.filter((n) => n.code === 'tubes-marked-dead')).toEqual([]);
    }
  });

  it('brings less heat than with the tube', () => {
    const whole = heatBasic({ ...quince, repairs: [] }, moment, { day: false }).result.heat_W;
    const now = heatBasic(quince, moment, { day: false }).result.heat_W;
    expect(now / whole).toBeGreaterThan(0.98);
    expect(now / whole).toBeLessThan(0.999);
  });

  it('runs the year and the days ahead without it', () => {
    const whole = startProject({ ...usualAnswers('us', 36), tubes: 6, passes: 1 });
    const at = whole.collector.sections[0];
    const plug = repair({ section: at.id, bank: at.banks[0].id, tube: 2 });
    const plugged = { ...whole, repairs: [plug] };
    const drawn = asItStands(plugged).collector;
    const marked = { ...whole, collector: drawn };
    const year = (p: Project) => seasonBasic(p);
    const found = year(plugged);
    expect(found.result).toEqual(year(marked).result);
    expect(found.result).not.toEqual(year(whole).result);
    expect(found.notices.map((n) => n.code)).toContain('tube-plugged');
    const read = readForecast('84/60 sunny calm', 'us');
    if (!read.ok) throw new Error('no forecast');
    const soon = (p: Project) =>
      ahead(p, { at: '2026-05-02T08:00', water_C: 22, days: read.days, full: false });
    expect(soon(plugged).result.hours).toEqual(soon(marked).result.hours);
    expect(soon(plugged).notices.map((n) => n.code)).toContain('tube-plugged');
  });

  it('buys every tube of a new build all the same', () => {
    const whole = startProject({ ...usualAnswers('us', 36), tubes: 6, passes: 1 });
    const at = whole.collector.sections[0];
    const plug = repair({ section: at.id, bank: at.banks[0].id, tube: 2 });
    const bought = (p: Project) => build(p).result.counts;
    expect(bought({ ...whole, repairs: [plug] })).toEqual(bought(whole));
  });

  it('welcomes its owner with it', () => {
    const whole = startProject({ ...usualAnswers('us', 36), tubes: 6, passes: 1 });
    const at = whole.collector.sections[0];
    const plug = repair({ section: at.id, bank: at.banks[0].id, tube: 2 });
    const found = firstReadouts({ ...whole, repairs: [plug] });
    expect([found.tubes, found.tubesWithoutWater]).toEqual([6, 1]);
  });
});
