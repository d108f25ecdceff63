import type { YardView } from '@sunlap/drawing/yardPlan';
import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import type { Project } from '@sunlap/project/schema/project';
import { useRef } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { y } from '../../text/yard';
import { withCorner } from './edits';
import { thingName } from './fields';
import { COLLECTOR, type Frame, on, POOL, placed, thingFrame } from './place';

interface Props {
  id: string;
  view: YardView;
  panel: readonly PlanPoint[];
  at: (p: PlanPoint) => readonly [number, number];
}

interface Grip {
  key: string;
  label: string;
  where: PlanPoint;
  kind: 'move' | 'x' | 'turn' | 'corner';
  step: string;
  /** Project with the grip carried by so much [m] from where it was taken. */
  carry: (project: Project, from: Frame, dx: number, dy: number) => Project;
}

const snap = (v: number, grid: number) => Math.round(v / grid) * grid;
const RAD = Math.PI / 180;

function gripsOf(
  project: Project,
  id: string,
  panel: readonly PlanPoint[],
  f: Frame,
  view: YardView,
  grid: number,
): Grip[] {
  const name = thingName(project, id);
  const put = (p: Project, to: Frame) => placed(p, id, panel, to);
  const grips: Grip[] = [
    {
      key: 'move',
      label: y.move(name),
      where: on(f, 0, 0),
      kind: 'move',
      step: y.moved(name),
      carry: (p, from, dx, dy) =>
        put(p, { ...from, x_m: snap(from.x_m + dx, grid), y_m: snap(from.y_m + dy, grid) }),
    },
  ];
  const along = (from: Frame, dx: number, dy: number): readonly [number, number] => {
    const [c, s] = [Math.cos(from.turn_deg * RAD), Math.sin(from.turn_deg * RAD)];
    return [dx * c - dy * s, dx * s + dy * c];
  };
  if (id !== COLLECTOR) {
    // one end is pulled, the other stays where it is
    grips.push({
      key: 'length',
      label: `${y.sized(name)}: ${y.length.toLowerCase()}`,
      where: on(f, 1, 0),
      kind: 'x',
      step: y.sized(name),
      carry: (p, from, dx, dy) => {
        const length_m = Math.max(grid, snap(from.length_m + along(from, dx, dy)[0], grid));
        const [x_m, y_m] = on({ ...from }, length_m / from.length_m - 1, 0);
        return put(p, { ...from, length_m, x_m, y_m });
      },
    });
    const square = isRound(project, id);
    if (!square)
      grips.push({
        key: 'width',
        label: `${y.sized(name)}: ${y.width.toLowerCase()}`,
        where: on(f, 0, 1),
        kind: 'x',
        step: y.sized(name),
        carry: (p, from, dx, dy) => {
          const width_m = Math.max(0.05, snap(from.width_m + along(from, dx, dy)[1], grid / 3));
          const [x_m, y_m] = on({ ...from }, 0, width_m / from.width_m - 1);
          return put(p, { ...from, width_m, x_m, y_m });
        },
      });
  }
  if (!isRound(project, id))
    grips.push({
      key: 'turn',
      label: y.turn(name),
      where: on(f, 1 + 40 / view.scale / Math.max(0.5, f.length_m / 2), 0),
      kind: 'turn',
      step: y.turned(name),
      carry: (p, from, dx, dy) => {
        const far = from.length_m / 2 + 40 / view.scale;
        const [c, s] = [Math.cos(from.turn_deg * RAD), Math.sin(from.turn_deg * RAD)];
        const a = -Math.atan2(-far * s + dy, far * c + dx) / RAD;
        return put(p, { ...from, turn_deg: snap(a, 1) });
      },
    });
  const { outline } = project.pool;
  if (id === POOL && outline.kind === 'polygon')
    outline.points.forEach(([x, yy], n) => {
      grips.push({
        key: `corner-${n}`,
        label: y.corner(n + 1),
        where: [x, yy],
        kind: 'corner',
        step: y.sized(name),
        carry: (p, _, dx, dy) => ({
          ...p,
          pool: {
            ...p.pool,
            outline: withCorner(p.pool.outline, n, [snap(x + dx, grid / 3), snap(yy + dy, grid / 3)]),
          },
        }),
      });
    });
  return grips;
}

export function isRound(project: Project, id: string): boolean {
  if (id === POOL) return project.pool.outline.kind === 'round';
  return project.yard?.obstacles.some((o) => o.id === id && o.kind === 'tree') ?? false;
}

/** Grips of the thing taken hold of: move, pull longer, pull wider, turn. */
export function YardHandles({ id, view, panel, at }: Props) {
  const { store } = useApp();
  const start = useRef<{
    x: number;
    y: number;
    frame: Frame;
    project: Project;
    scale: number;
    grip: Grip;
  } | null>(null);
  const { project } = doc.value;
  const frame = thingFrame(project, id, panel);
  if (frame === null) return null;
  const grid = units.value === 'us' ? 0.1524 : 0.1;
  const grips = gripsOf(project, id, panel, frame, view, grid);
  return (
    <>
      {grips.map((grip) => {
        const [left, top] = at(grip.where);
        return (
          <button
            key={grip.key}
            type="button"
            class={`handle yard-grip yard-grip-${grip.kind}`}
            data-grip={grip.key}
            aria-label={grip.label}
            style={{ left: `${left}px`, top: `${top}px` }}
            onPointerDown={(event) => {
              event.currentTarget.setPointerCapture(event.pointerId);
              start.current = { x: event.clientX, y: event.clientY, frame, project, scale: view.scale, grip };
            }}
            onPointerMove={(event) => {
              const s = start.current;
              if (s === null) return;
              const next = s.grip.carry(
                s.project,
                s.frame,
                (event.clientX - s.x) / s.scale,
                (s.y - event.clientY) / s.scale,
              );
              store.apply(s.grip.step, { doc: { ...doc.value, project: next }, undo: 'drag' });
            }}
            onPointerUp={() => {
              start.current = null;
              store.endDrag();
            }}
            onPointerCancel={() => {
              start.current = null;
              store.cancelDrag();
            }}
            onKeyDown={(event) => {
              const [dx, dy] = ARROWS[event.key] ?? [0, 0];
              if (event.key === 'Escape') store.cancelDrag();
              if (dx === 0 && dy === 0) return;
              event.preventDefault();
              const far = grip.kind === 'turn' ? 5 * RAD * (frame.length_m / 2 + 40 / view.scale) : grid;
              const next =
                grip.kind === 'turn'
                  ? placed(project, id, panel, { ...frame, turn_deg: frame.turn_deg + 5 * (dx - dy) })
                  : grip.kind === 'x'
                    ? grip.carry(project, frame, ...outward(frame, grip, (dx + dy) * far))
                    : grip.carry(project, frame, dx * far, dy * far);
              store.apply(grip.step, { doc: { ...doc.value, project: next }, undo: 'commit' });
            }}
          />
        );
      })}
    </>
  );
}

const ARROWS: Record<string, readonly [number, number]> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Along the side that a grip pulls. */
function outward(f: Frame, grip: Grip, by: number): [number, number] {
  const [dx, dy] = [grip.where[0] - f.x_m, grip.where[1] - f.y_m];
  const long = Math.hypot(dx, dy) || 1;
  return [(dx / long) * by, (dy / long) * by];
}
