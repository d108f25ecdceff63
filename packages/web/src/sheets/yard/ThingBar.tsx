import type { YardObstacle } from '@sunlap/project/schema/season';
import { LOWEST_SUN_deg, treeHeight } from '@sunlap/workbench/sun/tree-height';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { Chip } from '../../parts/Chip';
import type { Field } from '../../parts/field';
import { QuantityInput } from '../../parts/QuantityInput';
import { say } from '../../shape/quantity';
import { y } from '../../text/yard';
import { addThing, moreCorners, removeThing, WHATS } from './edits';
import { thingName, wordOf } from './fields';
import { COLLECTOR, obstacleOf, POOL, withObstacle } from './place';
import { picked } from './state';

type Tree = Extract<YardObstacle, { kind: 'tree' }>;
type Three = [string, string, string];

/** Everything in the yard by name, and what can be added. */
export function Things({ fields }: { fields: readonly Field[] }) {
  const { store } = useApp();
  const { project } = doc.value;
  const ids = [POOL, COLLECTOR, ...(project.yard?.obstacles ?? []).map((o) => o.id)];
  return (
    <div class="drawing-top yard-top">
      <fieldset class="segments yard-things" aria-label={y.things}>
        {ids.map((id) => (
          <button
            key={id}
            type="button"
            aria-pressed={picked.value === id}
            onClick={() => {
              picked.value = id;
            }}
          >
            {thingName(project, id)}
          </button>
        ))}
      </fieldset>
      <span class="yard-add">
        <span aria-hidden="true">{y.add}</span>
        {WHATS.map((what) => (
          <button
            key={what}
            type="button"
            class="act act-quiet"
            aria-label={y.addThing(y.what[what])}
            onClick={() => {
              const made = addThing(project, what);
              store.apply(y.added(y.what[what]), {
                doc: { ...doc.value, project: made.project },
                undo: 'commit',
              });
              picked.value = made.id;
            }}
          >
            {y.what[what].toLowerCase()}
          </button>
        ))}
      </span>
      <span class="yard-site">
        <Chip field={fields.find((f) => f.id === 'latitude')} word={y.word.lat} />
        <Chip field={fields.find((f) => f.id === 'longitude')} word={y.word.lon} />
      </span>
    </div>
  );
}

/** What can be typed of the thing taken hold of. */
export function ThingBar({ fields, elevation_deg }: { fields: readonly Field[]; elevation_deg: number }) {
  const { store } = useApp();
  const { project, moment } = doc.value;
  const id = picked.value;
  if (id === null) return null;
  const name = thingName(project, id);
  const thing = obstacleOf(project, id);
  const outline = project.pool.outline;
  const mine = fields.filter((f) => f.id.startsWith('yard-') || (id === POOL && f.id.startsWith('pool-')));
  const corners = (way: 1 | -1) =>
    store.apply(way > 0 ? y.addCorner : y.lessCorner, {
      doc: {
        ...doc.value,
        project: { ...project, pool: { ...project.pool, outline: moreCorners(outline, way) } },
      },
      undo: 'commit',
    });
  return (
    <div class="chip-row yard-bar">
      <strong>{name}</strong>
      {mine.map((f) => (
        <Chip key={f.id} field={f} word={wordOf(f.id)} />
      ))}
      {id === POOL && outline.kind === 'polygon' && (
        <>
          <button type="button" class="act act-quiet" onClick={() => corners(1)}>
            {y.addCorner}
          </button>
          <button
            type="button"
            class="act act-quiet"
            disabled={outline.points.length <= 3}
            onClick={() => corners(-1)}
          >
            {y.lessCorner}
          </button>
        </>
      )}
      {id === COLLECTOR && <span class="hint">{y.sizesThere}</span>}
      {thing?.kind === 'tree' && elevation_deg >= LOWEST_SUN_deg && (
        <HeightFromShadow
          key={id}
          tree={thing}
          elevation_deg={elevation_deg}
          hour={moment.at.slice(11, 16)}
        />
      )}
      {thing !== undefined && (
        <label class="yard-name">
          <span>{y.called}</span>
          <input
            key={thing.id}
            value={thing.name ?? ''}
            placeholder={name}
            maxLength={200}
            onChange={(event) => {
              const typed = event.currentTarget.value.trim();
              const next = withObstacle(project, id, (o) => {
                const { name: _, ...rest } = o;
                return (typed === '' ? rest : { ...rest, name: typed }) as typeof o;
              });
              store.apply(y.named(typed === '' ? name : typed), {
                doc: { ...doc.value, project: next },
                undo: 'commit',
              });
            }}
          />
        </label>
      )}
      {thing !== undefined && (
        <button
          type="button"
          class="act act-quiet"
          aria-label={y.removed(name)}
          onClick={() => {
            store.apply(y.removed(name), {
              doc: { ...doc.value, project: removeThing(project, id) },
              undo: 'commit',
            });
            picked.value = POOL;
          }}
        >
          {y.remove}
        </button>
      )}
    </div>
  );
}

/** A tree's height from how far its shadow reaches now. */
function HeightFromShadow({
  tree,
  elevation_deg,
  hour,
}: {
  tree: Tree;
  elevation_deg: number;
  hour: string;
}) {
  const { store } = useApp();
  const [length, setLength] = useState<number | null>(null);
  const from = (shadow_m: number) => treeHeight({ ...tree, shadow_m, elevation_deg });
  const found = length === null ? undefined : from(length);
  const u = units.value;
  return (
    <details class="yard-shadow">
      <summary>{y.shadowOf}</summary>
      <QuantityInput
        label={y.shadowOf}
        kind="length"
        value={length}
        min={0.1}
        max={200}
        hint={
          found === undefined
            ? y.shadowHint(hour)
            : found === null
              ? y.shadowTooShort
              : y.shadowFound(
                  ...([found.height_m, found.low_m, found.high_m].map((v) => say(v, 'length', u)) as Three),
                )
        }
        placeholder={u === 'us' ? '24 ft' : '7.5 m'}
        onValue={(v) => {
          setLength(v);
          const height = from(v);
          if (height === null) return;
          const { project } = doc.value;
          const height_m = Math.round(height.height_m * 100) / 100;
          const next = withObstacle(project, tree.id, (o) => (o.kind === 'tree' ? { ...o, height_m } : o));
          store.apply(y.shadowOf, { doc: { ...doc.value, project: next }, undo: 'drag' });
        }}
        onDone={() => store.endDrag()}
      />
    </details>
  );
}
