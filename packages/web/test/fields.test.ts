import { readFileSync } from 'node:fs';
import { DARK, LIGHT, type Palette } from '@sunlap/drawing/palette';
import { CAUTIONS, cautionsFor, handOf } from '@sunlap/workbench/cautions/catalogue';
import { describe, expect, it } from 'vitest';
import { keysOf, valueAt, withValue } from '../src/edits/pointer';
import { evenSteps, type Field } from '../src/parts/field';
import { fieldText } from '../src/shape/fieldText';
import { mendFor } from '../src/shape/mend';
import { collectorFields } from '../src/sheets/collector/fields';
import { partRows } from '../src/sheets/collector/parts';
import { fieldsAt, loopFields } from '../src/sheets/loop/fields';
import { moreRows } from '../src/sheets/loop/more';
import type { Doc } from '../src/store/doc';
import { isLegal, quinceDoc, ternDoc } from './examples';

/** Fields of the Collector sheet, then those of the Loop sheet: ways of sections stand on both. */
const sheetFields = (doc: Doc, units: 'us' | 'metric'): Field[][] => {
  const rows = (list: ReturnType<typeof partRows>) => list.flatMap((row) => row.fields.map((f) => f.field));
  return [
    [...collectorFields(doc, null, units), ...rows(partRows(doc.project, null, units))],
    [
      ...loopFields(doc.project, units),
      ...rows(moreRows(doc.project, units, { flow_m3s: 0.003, head_m: 12, curve: [] })),
    ],
  ];
};
const allFields = (doc: Doc, units: 'us' | 'metric'): Field[] => sheetFields(doc, units).flat();

describe('fields', () => {
  for (const [name, make] of [
    ['quince', quinceDoc],
    ['tern', ternDoc],
  ] as const)
    for (const units of ['us', 'metric'] as const)
      it(`${name}, ${units}: each step of each field leaves a legal file, and says its value`, () => {
        const doc = make();
        const fields = allFields(doc, units);
        for (const own of sheetFields(doc, units))
          expect(new Set(own.map((f) => f.id)).size).toBe(own.length);
        for (const f of fields) {
          expect(fieldText(f, units)).not.toBe('');
          if (f.type === 'number')
            for (const way of [-1, 1] as const) {
              const v = f.step(f.value ?? f.typical, way);
              if (v >= f.min && v <= f.max) expect(isLegal(f.set(doc, v)), `${f.id} ${v}`).toBe(true);
            }
          if (f.type === 'choice')
            for (const o of f.options)
              if (o.disabled !== true) expect(isLegal(f.set(doc, o.value)), `${f.id} ${o.value}`).toBe(true);
          if (f.type === 'pipe') expect(isLegal(f.set(doc, 'pvc-sch40-2'))).toBe(true);
        }
      });

  it('shows one value only where all agree', () => {
    const doc = quinceDoc();
    const [a] = doc.project.collector.sections;
    const odd = withValue(doc.project, '/collector/sections/0/banks/0/count', a.banks[0].count + 1);
    const count = collectorFields({ ...doc, project: odd }, null, 'us').find((f) => f.id === 'count');
    expect(count?.value).toBeNull();
  });

  it('finds the pipe and the length of a piece by its place', () => {
    const { project } = quinceDoc();
    const ids = fieldsAt(loopFields(project, 'us'), '/loop/feed/0').map((f) => f.id);
    // these stand under the drawing; what follows them stands in the list of pieces
    expect(ids.slice(0, 3)).toEqual([
      '/loop/feed/0/pipe',
      '/loop/feed/0/length_m',
      '/loop/feed/0/endHeight_m',
    ]);
    expect(fieldsAt(loopFields(project, 'us'), '/collector')).toEqual([]);
  });

  it('steps onto whole multiples', () => {
    const step = evenSteps(0.25);
    expect(step(1, 1)).toBe(1.25);
    expect(step(1.1, 1)).toBe(1.25);
    expect(step(1.1, -1)).toBe(1);
  });
});

describe('pointers', () => {
  it('replace one value and share the rest', () => {
    const before = { a: [{ b: 1 }, { b: 2 }], c: { d: 3 } };
    const after = withValue(before, '/a/1/b', 9);
    expect(after).toEqual({ a: [{ b: 1 }, { b: 9 }], c: { d: 3 } });
    expect(after.c).toBe(before.c);
    expect(after.a[0]).toBe(before.a[0]);
    expect(before.a[1].b).toBe(2);
  });

  it('read no inherited keys', () => {
    expect(valueAt({}, '/__proto__/polluted')).toBeUndefined();
    expect(keysOf('/a~1b/c~0d')).toEqual(['a/b', 'c~d']);
  });
});

describe('mending', () => {
  const notice = (code: string, path: string) => ({ code, path, severity: 'heat' as const, message: '' });

  it('offers the next larger header of the same kind', () => {
    const doc = quinceDoc();
    const mend = mendFor(notice('header-too-small', '/collector/sections/0/banks/0/supply'), doc)!;
    const after = mend.run(doc);
    const bank = after.project.collector.sections[0].banks[0];
    expect(bank.kind === 'tubes' && bank.supply.pipe).toBe('pvc-sch40-2');
    expect(isLegal(after)).toBe(true);
  });

  it('moves outlets to the other end, and back', () => {
    const doc = quinceDoc();
    const found = notice('other-end-shares-better', '/collector/sections/0/banks/1');
    const once = mendFor(found, doc)!.run(doc);
    expect(once.project.collector.sections[0].outletEnds).not.toEqual(
      doc.project.collector.sections[0].outletEnds,
    );
    const twice = mendFor(found, once)!.run(once);
    expect(twice.project.collector).toEqual(doc.project.collector);
  });

  it('opens the way past before anything else when both valves are shut', () => {
    const doc = ternDoc();
    const after = mendFor(notice('bypass-both-shut', '/loop/bypass'), doc)!.run(doc);
    expect(valueAt(after.project, '/loop/bypass/pastValve/opening')).toBe(1);
  });

  it('does what the study has tried, and nothing where the file is another by now', () => {
    const doc = quinceDoc();
    const fall = { path: '/collector/sections/0/banks/0/fall_mPerM', value: -0.016 };
    const mend = mendFor(
      { ...notice('does-not-drain', '/collector'), mend: { label: 'fall', edits: [fall] } },
      doc,
    )!;
    expect(mend.label).toBe('fall');
    const after = mend.run(doc);
    expect(valueAt(after.project, fall.path)).toBe(-0.016);
    expect(isLegal(after)).toBe(true);
    const gone = { path: '/collector/sections/99/raise_m', value: 1 };
    expect(
      mendFor({ ...notice('does-not-drain', '/collector'), mend: { label: 'x', edits: [gone] } }, doc),
    ).toBeNull();
  });

  it('offers nothing where nothing follows from the code', () => {
    expect(mendFor(notice('heat-doubt', ''), quinceDoc())).toBeNull();
    expect(mendFor(notice('header-too-small', '/collector/sections/99/banks/0'), quinceDoc())).toBeNull();
  });
});

describe('cautions', () => {
  it('stand where the hand is', () => {
    expect(handOf('/loop/bypass')).toBe('valve');
    expect(handOf('/loop/outlets/0')).toBe('outlet');
    expect(handOf('/loop/suctions/1')).toBe('suction');
    expect(handOf('/loop/pump/speed')).toBe('pump');
    expect(handOf('/collector', 'Throttle Section A with a balancing valve')).toBe('valve');
    expect(handOf('/site/exposure')).toBeNull();
  });

  it('name every caution that they send to', () => {
    const hands = [
      'valve',
      'outlet',
      'pump',
      'suction',
      'pipe',
      'roof',
      'ground',
      'drain',
      'filter',
      'tube',
    ] as const;
    const named = new Set(hands.flatMap((h) => cautionsFor(h).map((c) => c.id)));
    for (const id of CAUTIONS.keys()) expect(named, id).toContain(id);
  });
});

describe('tokens', () => {
  const css = readFileSync(new URL('../src/styles/tokens.css', import.meta.url), 'utf8');
  const block = (theme: string) => css.split(new RegExp(`data-theme=["']${theme}["']`))[1].split('}')[0];
  for (const [theme, palette] of [
    ['light', LIGHT],
    ['dark', DARK],
  ] as const)
    it(`of the ${theme} sheet are those of its drawings`, () => {
      for (const [name, value] of Object.entries(palette) as [keyof Palette, string][]) {
        const token = name === 'flagFill' ? 'flag-fill' : name;
        expect(block(theme), token).toContain(`--${token}: ${value};`);
      }
    });
});
