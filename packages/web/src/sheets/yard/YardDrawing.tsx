import { toSheet, viewOf, type YardView, yardPlan } from '@sunlap/drawing/yardPlan';
import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import type { YardScene } from '@sunlap/workbench/yard/scene';
import { useRef, useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { dark, doc, moving, narrow, units } from '../../app/state';
import { Chip } from '../../parts/Chip';
import type { Field } from '../../parts/field';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { say } from '../../shape/quantity';
import { y } from '../../text/yard';
import { thingName } from './fields';
import { COLLECTOR, type Frame, holds, on, POOL, placed, thingFrame } from './place';
import { RouteLines } from './Routes';
import { picked } from './state';
import { isRound, YardHandles } from './YardHandles';
import { ZoomBar } from './ZoomBar';
import { pushed, zoomed } from './zoom';

interface Props {
  scene: YardScene;
  panel: readonly PlanPoint[];
  fields: readonly Field[];
  sun: { azimuth_deg: number; elevation_deg: number } | null;
  month: number;
  says: string;
}

/** Grid of feet or metres that stays readable. */
function gridOf(scale: number, us: boolean): { m: number; n: number } {
  const unit = us ? 0.3048 : 1;
  const n = [1, 2, 5, 10, 20, 50, 100].find((k) => k * unit * scale >= 34) ?? 200;
  return { m: n * unit, n };
}

/** The plan: touch a thing to take hold of it, drag it, pull its grips. */
export function YardDrawing({ scene, panel, fields, sun, month, says }: Props) {
  const { store } = useApp();
  const { ref, width, height } = useSize<HTMLDivElement>();
  const kept = useRef<{ view: YardView; width: number; height: number } | null>(null);
  const drag = useRef<{ x: number; y: number; id: string; frame: Frame; moved: boolean } | null>(null);
  const [own, setOwn] = useState<YardView | null>(null);
  /** Ground that is pushed by the mouse, and fingers that pinch. */
  const push = useRef<{ x: number; y: number; view: YardView } | null>(null);
  const fingers = useRef(new Map<number, readonly [number, number]>());
  const { project } = doc.value;
  const id = picked.value;
  const us = units.value === 'us';
  const water = scene.pool.corners.map(([x, yy]): PlanPoint => [x, yy]);
  const things = scene.obstacles.map((o) => ({
    id: o.id,
    solid: o.solid,
    name: o.what === 'screen' ? '' : thingName(project, o.id),
  }));
  const all: PlanPoint[] = [
    ...water,
    ...panel,
    ...things.flatMap(({ solid: s }): PlanPoint[] =>
      s.kind === 'tree'
        ? [
            [s.at[0] - s.crownRadius_m, s.at[1] - s.crownRadius_m],
            [s.at[0] + s.crownRadius_m, s.at[1] + s.crownRadius_m],
          ]
        : [...s.footprint],
    ),
  ];
  const ready = width > 60 && height > 60;
  // the ground stays still under a thing that is dragged over it
  const old = kept.current;
  const fitted =
    moving.value && old !== null && old.width === width && old.height === height
      ? old.view
      : viewOf(all, width, height, narrow.value ? 46 : 48);
  if (ready) kept.current = { view: fitted, width, height };
  const view = own ?? fitted;
  const at = toSheet(view, width, height);
  const grid = gridOf(view.scale, us);
  const frame = id === null ? null : thingFrame(project, id, panel);
  const sides =
    frame === null || id === COLLECTOR
      ? []
      : [
          { id: 'yard-length_m', from: on(frame, -1, -1), to: on(frame, 1, -1), text: '' },
          ...(id !== null && isRound(project, id)
            ? []
            : [{ id: 'yard-width_m', from: on(frame, -1, 1), to: on(frame, -1, -1), text: '' }]),
        ].map((s) =>
          lefthanded(at(s.from), at(s.to), at([frame.x_m, frame.y_m])) ? { ...s, from: s.to, to: s.from } : s,
        );
  const sheet = ready
    ? yardPlan(
        { water, parts: scene.parts.map((p) => p.corners), things, sun, month, picked: id, sides },
        {
          width,
          height,
          view,
          grid_m: grid.m,
          gridText: say(grid.m, 'length', units.value),
          dark: dark.value,
          words: { pool: y.pool, collector: y.collector, sun: y.sun },
        },
      )
    : null;
  const hit = (event: PointerEvent): string | null => {
    const box = ref.current!.getBoundingClientRect();
    const p: PlanPoint = [
      view.x_m + (event.clientX - box.left - width / 2) / view.scale,
      view.y_m - (event.clientY - box.top - height / 2) / view.scale,
    ];
    for (const { id: thing, solid } of [...things].reverse()) {
      if (solid.kind === 'screen') continue;
      if (
        solid.kind === 'tree'
          ? Math.hypot(p[0] - solid.at[0], p[1] - solid.at[1]) <= solid.crownRadius_m
          : holds(solid.footprint, p)
      )
        return thing;
    }
    if (
      scene.parts.some((part) =>
        holds(
          part.corners.map(([x, yy]): PlanPoint => [x, yy]),
          p,
        ),
      )
    )
      return COLLECTOR;
    return holds(water, p) ? POOL : null;
  };
  return (
    <div
      class="canvas yard-canvas"
      ref={ref}
      onPointerDown={(event) => {
        if ((event.target as HTMLElement).closest('button') !== null) return;
        if (event.pointerType === 'touch')
          fingers.current.set(event.pointerId, [event.clientX, event.clientY]);
        const found = hit(event);
        if (found === null) {
          if (event.pointerType === 'touch') return;
          event.currentTarget.setPointerCapture(event.pointerId);
          push.current = { x: event.clientX, y: event.clientY, view };
          return;
        }
        picked.value = found;
        // on a phone a finger on the drawing scrolls; the grips move things
        if (event.pointerType === 'touch') return;
        const from = thingFrame(project, found, panel);
        if (from === null) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        drag.current = { x: event.clientX, y: event.clientY, id: found, frame: from, moved: false };
      }}
      onWheel={(event) => {
        event.preventDefault();
        const box = event.currentTarget.getBoundingClientRect();
        const [px, py] = [event.clientX - box.left - width / 2, event.clientY - box.top - height / 2];
        setOwn(zoomed(view, Math.exp(-event.deltaY * 0.0015), px, py));
      }}
      onPointerMove={(event) => {
        const before = fingers.current.get(event.pointerId);
        if (before !== undefined && fingers.current.size === 2) {
          const other = [...fingers.current].find(([finger]) => finger !== event.pointerId)![1];
          const far = (p: readonly [number, number]) => Math.hypot(p[0] - other[0], p[1] - other[1]);
          const here = [event.clientX, event.clientY] as const;
          fingers.current.set(event.pointerId, here);
          if (far(before) > 8) setOwn(zoomed(view, far(here) / far(before)));
          return;
        }
        const g = push.current;
        if (g !== null) return setOwn(pushed(g.view, event.clientX - g.x, event.clientY - g.y));
        const d = drag.current;
        if (d === null) return;
        const [dx, dy] = [(event.clientX - d.x) / view.scale, (d.y - event.clientY) / view.scale];
        if (!d.moved && Math.hypot(event.clientX - d.x, event.clientY - d.y) < 4) return;
        d.moved = true;
        const step = us ? 0.1524 : 0.1;
        const snap = (v: number) => Math.round(v / step) * step;
        const next = placed(doc.value.project, d.id, panel, {
          ...d.frame,
          x_m: snap(d.frame.x_m + dx),
          y_m: snap(d.frame.y_m + dy),
        });
        store.apply(y.moved(thingName(project, d.id)), {
          doc: { ...doc.value, project: next },
          undo: 'drag',
        });
      }}
      onPointerUp={(event) => {
        fingers.current.delete(event.pointerId);
        push.current = null;
        drag.current = null;
        store.endDrag();
      }}
      onPointerCancel={(event) => {
        fingers.current.delete(event.pointerId);
        push.current = null;
        drag.current = null;
        store.cancelDrag();
      }}
    >
      {sheet !== null && (
        <>
          <Picture
            items={sheet.items}
            width={width}
            height={height}
            name="yard"
            title={y.picture}
            says={says}
          />
          {sheet.anchors.map((a) => (
            <Chip key={a.id} field={fields.find((f) => f.id === a.id)} at={a} />
          ))}
          <RouteLines view={view} width={width} height={height} at={at} />
          {id !== null && <YardHandles id={id} view={view} panel={panel} at={at} />}
          <ZoomBar view={view} set={setOwn} own={own !== null} />
        </>
      )}
    </div>
  );
}

/** A dimension is drawn to the left of its direction: is that the side on which the thing lies? */
function lefthanded(
  from: readonly [number, number],
  to: readonly [number, number],
  middle: readonly [number, number],
): boolean {
  return (to[0] - from[0]) * (middle[1] - from[1]) - (to[1] - from[1]) * (middle[0] - from[0]) < 0;
}
