import { surfaces } from '@sunlap/data/surfaces';
import type { Bank, Collector } from '@sunlap/project/schema/collector';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import { isNested, spacing_m } from '../../edits/extent';
import {
  type Scope,
  setCount,
  setDirection,
  setFall,
  setHeader,
  setLength,
  setNested,
  setPasses,
  setPipe,
  setPitch,
  setSections,
} from '../../edits/panel';
import { joining, setJoining } from '../../edits/plumbing';
import { evenSteps, type Field } from '../../parts/field';
import { alike } from '../../shape/alike';
import { pipeName, pipeSize } from '../../shape/pipes';
import { say } from '../../shape/quantity';
import type { Doc } from '../../store/doc';
import { t } from '../../text/catalogue';

const SURFACES = surfaces.filter((row) => row.id !== 'own');

const inch = 0.0254;
const foot = 0.3048;

const withCollector = (doc: Doc, change: (c: Collector) => Collector): Doc => ({
  ...doc,
  project: { ...doc.project, collector: change(doc.project.collector) },
});

const headerOf = (b: Bank) => (b.kind === 'rated' ? b.headerPipe : b.supply?.pipe);

/** Everything that can be changed on the Collector sheet, for one section or for all. */
export function collectorFields(doc: Doc, scope: Scope, units: UnitSystem): Field[] {
  const { collector } = doc.project;
  const us = units === 'us';
  const sections = scope === null ? collector.sections : collector.sections.filter((s) => s.id === scope);
  const banks = sections.flatMap((s) => s.banks);
  const [bank] = banks;
  if (bank === undefined) return [];
  const base = '/collector/sections';
  const edit = (change: (c: Collector) => Collector) => (d: Doc) => withCollector(d, change);
  const p = collector.placement;
  const place = (key: keyof typeof p, value: unknown) => (c: Collector) => ({
    ...c,
    placement: { ...c.placement, [key]: value },
  });
  const fields: Field[] = [];
  const length = alike(banks.map((b) => b.length_m));
  fields.push({
    type: 'number',
    id: 'length',
    label: t.fields.length,
    kind: 'length',
    value: length,
    typical: bank.length_m,
    min: 0.2,
    max: 60,
    step: evenSteps(us ? foot / 2 : 0.1),
    set: (d, v) => edit((c) => setLength(c, scope, v))(d),
    stepName: t.steps.length,
    path: base,
  });
  const count = alike(banks.map((b) => b.count));
  fields.push({
    type: 'number',
    id: 'count',
    label: t.fields.count,
    kind: 'count',
    value: count,
    typical: bank.count,
    min: 1,
    max: 200,
    step: (v, way) => Math.round(v) + way,
    set: (d, v) => edit((c) => setCount(c, scope, Math.round(v)))(d),
    stepName: t.steps.count,
    chip: count === null ? t.chip.varies : bank.kind === 'coil' ? t.chip.coils(count) : t.chip.tubes(count),
    path: base,
  });
  const pitch = alike(banks.map(spacing_m));
  fields.push({
    type: 'number',
    id: 'pitch',
    label: t.fields.pitch,
    kind: 'smallLength',
    value: pitch,
    typical: spacing_m(bank),
    min: 0.01,
    max: 3,
    step: evenSteps(us ? inch / 8 : 0.002),
    set: (d, v) => edit((c) => setPitch(c, scope, v))(d),
    stepName: t.steps.pitch,
    path: base,
  });
  if (bank.kind !== 'rated') {
    const pipe = alike(banks.map((b) => (b.kind === 'rated' ? '' : b.pipe)));
    fields.push({
      type: 'pipe',
      id: 'tube',
      label: t.fields.tube,
      value: pipe,
      typical: bank.pipe,
      set: (d, v) => edit((c) => setPipe(c, scope, v))(d),
      stepName: (v) => t.steps.tube(v),
      chip: pipe === null ? t.chip.varies : pipeName(pipe),
      hand: 'pipe',
      path: base,
    });
  }
  const first = headerOf(bank);
  if (first !== undefined) {
    const header = alike(
      banks.flatMap((b) => (b.kind === 'rated' ? [b.headerPipe] : [b.supply?.pipe, b.gather?.pipe])),
    );
    fields.push({
      type: 'pipe',
      id: 'header',
      label: t.fields.header,
      value: header ?? null,
      typical: first,
      set: (d, v) => edit((c) => setHeader(c, scope, v))(d),
      stepName: (v) => t.steps.header(v),
      chip: header === null || header === undefined ? t.chip.varies : pipeSize(header),
      hand: 'pipe',
      path: `${base}/header`,
    });
  }
  const passes = alike(sections.map((s) => s.banks.length));
  fields.push({
    type: 'number',
    id: 'passes',
    label: t.fields.passes,
    kind: 'count',
    value: passes,
    typical: sections[0].banks.length,
    min: 1,
    max: 12,
    step: (v, way) => Math.round(v) + way,
    set: (d, v) => edit((c) => setPasses(c, scope, Math.round(v)))(d),
    stepName: t.steps.passes,
    chip: passes === null ? t.chip.varies : t.chip.passes(passes),
    hint: t.fields.passesHint,
  });
  fields.push({
    type: 'number',
    id: 'sections',
    label: t.fields.sections,
    kind: 'count',
    value: collector.sections.length,
    typical: collector.sections.length,
    min: 1,
    max: 24,
    step: (v, way) => Math.round(v) + way,
    set: (d, v) => edit((c) => setSections(c, Math.round(v)))(d),
    stepName: t.steps.sections,
    chip: t.chip.sections(collector.sections.length),
  });
  const join = joining(collector.plumbing);
  if (join !== 'single')
    fields.push({
      type: 'choice',
      id: 'joining',
      label: t.fields.joining,
      options: [
        { value: 'series', label: t.options.series },
        { value: 'parallel', label: t.options.parallel },
        ...(join === 'mixed' ? [{ value: 'mixed', label: t.options.mixed, disabled: true }] : []),
      ],
      value: join,
      set: (d, v) => edit((c) => (v === 'series' || v === 'parallel' ? setJoining(c, v) : c))(d),
      stepName: t.steps.joining,
      path: '/collector/plumbing',
      hand: 'pipe',
    });
  if (sections.some((s) => s.banks.length > 1) && banks.every((b) => b.kind === 'tubes'))
    fields.push({
      type: 'choice',
      id: 'nested',
      label: t.fields.nested,
      options: [
        { value: 'flat', label: t.options.flat },
        { value: 'nested', label: t.options.nested },
      ],
      value: alike(sections.map((s) => (isNested(s) ? 'nested' : 'flat'))),
      set: (d, v) => edit((c) => setNested(c, scope, v === 'nested'))(d),
      stepName: (v) => t.steps.set(t.fields.nested, v),
    });
  fields.push({
    type: 'choice',
    id: 'direction',
    label: t.fields.direction,
    options: [
      { value: 'contour', label: t.options.contour },
      { value: 'slope', label: t.options.slope },
      ...(sections.some((s) => s.direction === 'angle')
        ? [{ value: 'angle', label: t.options.angle, disabled: true }]
        : []),
    ],
    value: alike(sections.map((s) => s.direction)),
    set: (d, v) => edit((c) => (v === 'contour' || v === 'slope' ? setDirection(c, scope, v) : c))(d),
    stepName: (v) => t.steps.set(t.fields.direction, v),
  });
  fields.push(
    {
      type: 'choice',
      id: 'backing',
      label: t.fields.backing,
      options: (['none', 'board', 'roof', 'ground', 'membrane'] as const).map((value) => ({
        value,
        label: t.options[value],
      })),
      value: collector.backing.kind,
      set: (d, v) =>
        edit((c) => ({ ...c, backing: { ...c.backing, kind: v as Collector['backing']['kind'] } }))(d),
      stepName: (v) => t.steps.set(t.fields.backing, v),
      path: '/collector/backing',
      ...(collector.backing.kind === 'roof' ? { hand: 'roof' as const } : {}),
    },
    {
      type: 'choice',
      id: 'colour',
      label: t.fields.colour,
      options: SURFACES.map(({ id, label }) => ({ value: id, label })),
      value: collector.surface.colour,
      set: (d, v) =>
        edit((c) => {
          const row = SURFACES.find((r) => r.id === v);
          return row === undefined
            ? c
            : { ...c, surface: { colour: v, absorptance: row.absorptance, emittance: row.emittance } };
        })(d),
      stepName: (v) => t.steps.set(t.fields.colour, v),
      path: '/collector/surface',
    },
    {
      type: 'choice',
      id: 'mounting',
      label: t.fields.mounting,
      options: (['ground', 'rack', 'roof'] as const).map((value) => ({ value, label: t.options[value] })),
      value: p.mounting,
      set: (d, v) => edit(place('mounting', v))(d),
      stepName: (v) => t.steps.set(t.fields.mounting, v),
      ...(p.mounting === 'roof' ? { hand: 'roof' as const } : {}),
    },
    {
      type: 'number',
      id: 'tilt',
      label: t.fields.tilt,
      kind: 'angle',
      value: p.tilt_deg,
      typical: p.tilt_deg,
      min: 0,
      max: 90,
      step: evenSteps(1),
      set: (d, v) => edit(place('tilt_deg', v))(d),
      stepName: (v) => t.steps.set(t.fields.tilt, v),
      path: '/collector/placement/tilt_deg',
    },
    {
      type: 'number',
      id: 'facing',
      label: t.fields.facing,
      kind: 'bearing',
      value: p.facing_deg,
      typical: p.facing_deg,
      min: 0,
      max: 359.999,
      step: (v, way) => ((((Math.round(v / 5) + way) * 5) % 360) + 360) % 360,
      set: (d, v) => edit(place('facing_deg', v % 360))(d),
      stepName: (v) => t.steps.set(t.fields.facing, v),
      path: '/collector/placement/facing_deg',
    },
    {
      type: 'number',
      id: 'lowestHeight',
      label: t.fields.lowest,
      kind: 'length',
      value: p.lowestHeight_m,
      typical: p.lowestHeight_m,
      min: -20,
      max: 40,
      step: evenSteps(us ? foot / 2 : 0.1),
      set: (d, v) => edit(place('lowestHeight_m', v))(d),
      stepName: (v) => t.steps.set(t.fields.lowest, v),
      path: '/collector/placement/lowestHeight_m',
      ...(p.mounting === 'roof' ? { hand: 'roof' as const } : {}),
    },
    {
      type: 'number',
      id: 'spacing',
      label: t.fields.spacing,
      kind: 'length',
      value: collector.supports.spacing_m,
      typical: collector.supports.spacing_m,
      min: 0.1,
      max: 6,
      step: evenSteps(us ? inch * 2 : 0.05),
      set: (d, v) => edit((c) => ({ ...c, supports: { ...c.supports, spacing_m: v } }))(d),
      stepName: (v) => t.steps.set(t.fields.spacing, v),
      path: '/collector/supports',
      chip: say(collector.supports.spacing_m, us ? 'smallLength' : 'length', units),
    },
  );
  const tubes = banks.filter((b) => b.kind === 'tubes');
  if (tubes.length > 0)
    fields.push({
      type: 'number',
      id: 'fall',
      label: t.fields.fall,
      kind: 'slope',
      value: alike(tubes.map((b) => b.fall_mPerM ?? 0)),
      typical: tubes[0].fall_mPerM ?? 0,
      min: -0.5,
      max: 0.5,
      step: evenSteps(us ? 1 / 192 : 0.005),
      set: (d, v) => edit((c) => setFall(c, scope, v))(d),
      stepName: (v) => t.steps.set(t.fields.fall, v),
      hand: 'drain',
      path: `${base}/fall_mPerM`,
    });
  return fields;
}
