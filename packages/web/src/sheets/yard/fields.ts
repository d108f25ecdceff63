import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import type { Outline } from '@sunlap/project/schema/pool';
import type { Project } from '@sunlap/project/schema/project';
import { formatQuantity } from '@sunlap/project/units/format';
import type { QuantityKind, UnitSystem } from '@sunlap/project/units/kinds';
import { type ChoiceField, evenSteps, type Field, type NumberField } from '../../parts/field';
import type { Doc } from '../../store/doc';
import { t } from '../../text/catalogue';
import { y } from '../../text/yard';
import { LEAFY, mirrored, reshaped, type ScreenKind, screenKind, summerLeaves, withScreen } from './edits';
import { COLLECTOR, type Frame, obstacleOf, POOL, placed, thingFrame, withObstacle } from './place';

type Change = (project: Project, value: number) => Project;

function number(
  id: string,
  label: string,
  kind: QuantityKind,
  value: number,
  range: readonly [number, number, number],
  change: Change,
  more: Partial<NumberField> = {},
): NumberField {
  const [min, max, step] = range;
  return {
    type: 'number',
    id,
    label,
    kind,
    value,
    typical: value,
    min,
    max,
    step: evenSteps(step),
    set: (doc: Doc, v) => ({ ...doc, project: change(doc.project, v) }),
    stepName: (shown) => t.steps.set(label, shown),
    ...more,
  };
}

function choice(
  id: string,
  label: string,
  value: string,
  options: Record<string, string>,
  change: (project: Project, value: string) => Project,
): ChoiceField {
  return {
    type: 'choice',
    id,
    label,
    value,
    options: Object.entries(options).map(([v, words]) => ({ value: v, label: words })),
    set: (doc, v) => ({ ...doc, project: change(doc.project, v) }),
    stepName: (shown) => t.steps.set(label, shown),
  };
}

/** Name of a thing as the person calls it. */
export function thingName(project: Project, id: string): string {
  if (id === POOL) return y.pool;
  if (id === COLLECTOR) return y.collector;
  const o = obstacleOf(project, id);
  if (o === undefined) return id;
  if (o.name !== undefined) return o.name;
  const what = o.kind === 'tree' ? 'tree' : o.what;
  const alike = (project.yard?.obstacles ?? []).filter((b) => (b.kind === 'tree' ? 'tree' : b.what) === what);
  return alike.length > 1 ? `${y.what[what]} ${alike.indexOf(o) + 1}` : y.what[what];
}

/** Fields of the site and of the thing taken hold of. */
export function yardFields(
  project: Project,
  id: string | null,
  panel: readonly PlanPoint[],
  units: UnitSystem,
): Field[] {
  const us = units === 'us';
  const step = us ? 0.3048 : 0.25;
  const { site } = project;
  const degrees = (v: number) => ({ chip: `${String(Math.round(v * 10) / 10).replace('-', '−')}°` });
  const fields: Field[] = [
    number(
      'latitude',
      y.latitude,
      'angle',
      site.latitude_deg,
      [-90, 90, 0.5],
      (p, v) => ({ ...p, site: { ...p.site, latitude_deg: v } }),
      { path: '/site/latitude_deg', ...degrees(site.latitude_deg) },
    ),
    number(
      'longitude',
      y.longitude,
      'angle',
      site.longitude_deg,
      [-180, 180, 0.5],
      (p, v) => ({ ...p, site: { ...p.site, longitude_deg: v } }),
      { path: '/site/longitude_deg', ...degrees(site.longitude_deg) },
    ),
  ];
  if (id === null) return fields;
  const frame = thingFrame(project, id, panel);
  if (frame === null) return fields;
  const name = thingName(project, id);
  const label = (what: string) => `${name}: ${what.toLowerCase()}`;
  const short = (v: number) => ({ chip: formatQuantity(v, 'length', units, us ? { fraction: 1 } : {}).text });
  const put =
    (key: keyof Frame): Change =>
    (p, v) =>
      placed(p, id, panel, { ...frame, [key]: v });
  const side = (key: 'length_m' | 'width_m', what: string) =>
    number(`yard-${key}`, label(what), 'length', frame[key], [0.05, 100, step], put(key), short(frame[key]));
  const turn = number(
    'yard-turn',
    label(y.bearing),
    'angle',
    frame.turn_deg,
    [0, 359.9, 5],
    put('turn_deg'),
    degrees(frame.turn_deg),
  );
  const at = [
    number('yard-x', label(y.east), 'length', frame.x_m, [-300, 300, step], put('x_m'), short(frame.x_m)),
    number('yard-y', label(y.north), 'length', frame.y_m, [-300, 300, step], put('y_m'), short(frame.y_m)),
  ];
  if (id === POOL) fields.push(...poolFields(project, frame, side, turn, us), ...at);
  else if (id === COLLECTOR) {
    const q = project.collector.placement;
    const set =
      (key: 'facing_deg' | 'tilt_deg' | 'lowestHeight_m'): Change =>
      (p, v) => ({
        ...p,
        collector: { ...p.collector, placement: { ...p.collector.placement, [key]: v } },
      });
    fields.push(
      number('yard-facing', label(y.facing), 'bearing', q.facing_deg, [0, 359.9, 5], (p, v) =>
        placed(p, id, panel, { ...frame, turn_deg: frame.turn_deg + v - q.facing_deg }),
      ),
      number('yard-tilt', label(y.tilt), 'angle', q.tilt_deg, [0, 89, 1], set('tilt_deg')),
      number(
        'yard-lowest',
        label(y.lowest),
        'length',
        q.lowestHeight_m,
        [-5, 30, step],
        set('lowestHeight_m'),
        short(q.lowestHeight_m),
      ),
      ...at,
    );
  } else {
    const o = obstacleOf(project, id)!;
    const set =
      (key: string): Change =>
      (p, v) =>
        withObstacle(p, id, (x) => ({ ...x, [key]: v }));
    if (o.kind === 'prism')
      fields.push(
        side('length_m', y.length),
        side('width_m', y.width),
        number(
          'yard-top',
          label(y.top),
          'length',
          o.top_m,
          [o.base_m + 0.05, 60, step],
          set('top_m'),
          short(o.top_m),
        ),
        number(
          'yard-base',
          label(y.base),
          'length',
          o.base_m,
          [-20, o.top_m - 0.05, step],
          set('base_m'),
          short(o.base_m),
        ),
        turn,
        ...at,
      );
    else {
      const leafy = o.leafMonths.every(Boolean) ? 'all' : 'summer';
      fields.push(
        number(
          'yard-length_m',
          label(y.crown),
          'length',
          frame.length_m,
          [0.2, 40, step],
          put('length_m'),
          short(frame.length_m),
        ),
        number(
          'yard-height',
          label(y.treeHeight),
          'length',
          o.height_m,
          [o.crownBase_m + 0.1, 60, step],
          set('height_m'),
          short(o.height_m),
        ),
        number(
          'yard-crownBase',
          label(y.crownBase),
          'length',
          o.crownBase_m,
          [0, o.height_m - 0.1, step],
          set('crownBase_m'),
          short(o.crownBase_m),
        ),
        choice('yard-leaves', label(y.leaves), leafy, y.leafy, (p, v) =>
          withObstacle(
            p,
            id,
            (x) =>
              ({
                ...x,
                leafMonths: v === 'all' ? [...LEAFY.all] : summerLeaves(p.site.latitude_deg),
              }) as typeof x,
          ),
        ),
        number(
          'yard-leaf',
          label(y.leaf),
          'ratio',
          o.leafTransmittance,
          [0, 1, 0.05],
          set('leafTransmittance'),
        ),
        ...(leafy === 'all'
          ? []
          : [
              number(
                'yard-bare',
                label(y.bare),
                'ratio',
                o.bareTransmittance,
                [0, 1, 0.05],
                set('bareTransmittance'),
              ),
            ]),
        ...at,
      );
    }
  }
  return fields;
}

function poolFields(
  project: Project,
  frame: Frame,
  side: (key: 'length_m' | 'width_m', what: string) => Field,
  turn: Field,
  us: boolean,
): Field[] {
  const { outline, screen } = project.pool;
  const step = us ? 0.3048 : 0.25;
  const out: Field[] = [
    choice('pool-shape', y.shape, outline.kind, y.shapes, (p, v) => ({
      ...p,
      pool: { ...p.pool, outline: reshaped(p.pool.outline, v as Outline['kind']) },
    })),
    side('length_m', outline.kind === 'round' ? y.diameter : y.length),
  ];
  if (outline.kind !== 'round') out.push(side('width_m', y.width), turn);
  if (outline.kind === 'L') {
    const cut = (key: 'cutLength_m' | 'cutWidth_m', what: string, most: number) =>
      number(`pool-${key}`, what, 'length', outline[key], [0.1, most * 0.95, step], (p, v) => ({
        ...p,
        pool: { ...p.pool, outline: { ...p.pool.outline, [key]: v } as Outline },
      }));
    out.push(
      cut('cutLength_m', y.cutLength, frame.length_m),
      cut('cutWidth_m', y.cutWidth, frame.width_m),
      choice('pool-hand', y.hand, outline.mirrored === true ? 'left' : 'right', y.hands, (p, v) => ({
        ...p,
        pool: { ...p.pool, outline: mirrored(p.pool.outline, v === 'left') },
      })),
    );
  }
  out.push(
    choice('pool-screen', y.screen, screenKind(project.pool), y.screens, (p, v) => ({
      ...p,
      pool: withScreen(p.pool, v as ScreenKind),
    })),
  );
  if (screen !== undefined) {
    const set =
      (change: (s: NonNullable<typeof screen>, v: number) => NonNullable<typeof screen>): Change =>
      (p, v) =>
        p.pool.screen === undefined ? p : { ...p, pool: { ...p.pool, screen: change(p.pool.screen, v) } };
    out.push(
      number(
        'pool-screenHeight',
        y.screenHeight,
        'length',
        screen.height_m,
        [0.5, 12, step],
        set((s, v) => ({ ...s, height_m: v })),
      ),
    );
    if (screen.mesh.kind === 'typed')
      out.push(
        number(
          'pool-openness',
          y.openness,
          'ratio',
          screen.mesh.openness,
          [0, 1, 0.05],
          set((s, v) => ({ ...s, mesh: { kind: 'typed', openness: v } })),
        ),
      );
  }
  return out;
}

const WORDS: Record<string, string> = {
  'yard-turn': y.word.turned,
  'yard-top': y.word.high,
  'yard-height': y.word.high,
  'yard-base': y.word.from,
  'yard-crownBase': y.word.from,
  'yard-x': y.word.east,
  'yard-y': y.word.north,
  'yard-leaf': y.word.through,
  'yard-bare': y.word.bare,
  'yard-leaves': y.word.leaves,
  'yard-tilt': y.word.tilt,
  'yard-facing': y.word.looks,
  'yard-lowest': y.word.from,
  'pool-screen': y.word.screen,
  'pool-cutLength_m': y.word.cut,
  'pool-cutWidth_m': y.word.cut,
  'pool-hand': y.word.hand,
  'pool-openness': y.word.through,
  'pool-screenHeight': y.word.high,
  latitude: y.word.lat,
  longitude: y.word.lon,
};
export const wordOf = (id: string): string | undefined => WORDS[id];
