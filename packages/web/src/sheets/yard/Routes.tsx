import type { YardView } from '@sunlap/drawing/yardPlan';
import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import { useRef } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, study, units } from '../../app/state';
import { say } from '../../shape/quantity';
import { y } from '../../text/yard';
import {
  climbOf,
  firstRoute,
  pipeLength,
  routeLength,
  routeOf,
  WAYS,
  type Way,
  withCorners,
  withPipeLength,
  withPoint,
  withRoute,
} from './routes';
import { routePicked } from './state';

const w = y.routes;
const ARROWS: Record<string, readonly [number, number]> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

interface Props {
  view: YardView;
  width: number;
  height: number;
  at: (p: PlanPoint) => readonly [number, number];
}

/** The pipe's ways over the plan: feed as a full line, return dashed, each with its length; corners to be dragged. */
export function RouteLines({ view, width, height, at }: Props) {
  const { store } = useApp();
  const start = useRef<{ x: number; y: number; from: PlanPoint; n: number } | null>(null);
  const { project } = doc.value;
  const u = units.value;
  const grid = u === 'us' ? 0.1524 : 0.1;
  const snap = (v: number) => Math.round(v / grid) * grid;
  const way = routePicked.value;
  const move = (n: number, p: PlanPoint, undo: 'drag' | 'commit') => {
    const route = way === null ? undefined : routeOf(doc.value.project, way);
    if (way === null || route === undefined) return;
    const next = withRoute(doc.value.project, way, withPoint(route, n, [snap(p[0]), snap(p[1])]));
    store.apply(w.moved(w.name[way]), { doc: { ...doc.value, project: next }, undo });
  };
  const held = way === null ? undefined : routeOf(project, way);
  return (
    <>
      <svg class="yard-routes" width={width} height={height} aria-hidden="true">
        {WAYS.map((each) => {
          const route = routeOf(project, each);
          if (route === undefined) return null;
          const points = route.map((p) => at(p));
          const [mx, my] = points[Math.floor(points.length / 2)];
          return (
            <g key={each} class={`yard-route yard-route-${each}`}>
              <polyline points={points.map((p) => p.join(',')).join(' ')} />
              <text
                x={mx > width - 150 ? mx - 8 : mx + 8}
                y={my - 9}
                text-anchor={mx > width - 150 ? 'end' : 'start'}
              >
                {w.name[each]} {say(routeLength(route), 'length', u)}
              </text>
            </g>
          );
        })}
      </svg>
      {held?.map((p, n) => {
        const [left, top] = at(p);
        return (
          <button
            key={n}
            type="button"
            class="handle yard-grip yard-grip-corner"
            data-grip={`route-${n}`}
            aria-label={w.corner(w.name[way!], n + 1)}
            style={{ left: `${left}px`, top: `${top}px` }}
            onPointerDown={(event) => {
              event.currentTarget.setPointerCapture(event.pointerId);
              start.current = { x: event.clientX, y: event.clientY, from: p, n };
            }}
            onPointerMove={(event) => {
              const s = start.current;
              if (s === null) return;
              const [dx, dy] = [(event.clientX - s.x) / view.scale, (s.y - event.clientY) / view.scale];
              move(s.n, [s.from[0] + dx, s.from[1] + dy], 'drag');
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
              const arrow = ARROWS[event.key];
              if (arrow === undefined) return;
              event.preventDefault();
              move(n, [p[0] + arrow[0] * grid, p[1] + arrow[1] * grid], 'commit');
            }}
          />
        );
      })}
    </>
  );
}

/** Draws, bends and drops the ways, and hands their lengths to the loop. */
export function RouteBar({ panel }: { panel: readonly PlanPoint[] }) {
  const { store } = useApp();
  const { project } = doc.value;
  const u = units.value;
  const put = (name: string, next: typeof project) =>
    store.apply(name, { doc: { ...doc.value, project: next }, undo: 'commit' });
  const one = (way: Way) => {
    const route = routeOf(project, way);
    const name = w.name[way];
    if (route === undefined)
      return (
        <button
          type="button"
          class="act act-quiet"
          onClick={() => {
            put(w.drawn(name), withRoute(project, way, firstRoute(project, way, panel)));
            routePicked.value = way;
          }}
        >
          {w.draw(name)}
        </button>
      );
    const plan = routeLength(route);
    const climb = climbOf(project, way, study.value?.flow.result.loop.pieces ?? []) ?? 0;
    const length = plan + climb;
    const now = pipeLength(project, way);
    const on = routePicked.value === way;
    return (
      <>
        <button
          type="button"
          class="act act-quiet"
          aria-pressed={on}
          onClick={() => {
            routePicked.value = on ? null : way;
          }}
        >
          {name} {say(plan, 'length', u)}
          {climb >= 0.05 && ` ${w.climbs(say(climb, 'length', u))}`}
        </button>
        {on && (
          <>
            <button
              type="button"
              class="act act-quiet"
              onClick={() => put(w.bend(name), withRoute(project, way, withCorners(route, 1)))}
            >
              {y.addCorner}
            </button>
            <button
              type="button"
              class="act act-quiet"
              disabled={route.length <= 2}
              onClick={() => put(w.bend(name), withRoute(project, way, withCorners(route, -1)))}
            >
              {y.lessCorner}
            </button>
            <button
              type="button"
              class="act act-quiet"
              onClick={() => {
                put(w.dropped(name), withRoute(project, way, null));
                routePicked.value = null;
              }}
            >
              {w.drop}
            </button>
          </>
        )}
        {now > 0 && Math.abs(now - length) > 0.05 && (
          <button
            type="button"
            class="act act-quiet"
            onClick={() => put(w.used(name), withPipeLength(project, way, length))}
          >
            {w.use(say(now, 'length', u), say(length, 'length', u))}
          </button>
        )}
      </>
    );
  };
  return (
    <div class="chip-row yard-bar yard-route-bar">
      <strong>{w.title}</strong>
      {WAYS.map((way) => (
        <span key={way}>{one(way)}</span>
      ))}
      {WAYS.some((way) => routeOf(project, way) !== undefined) && <span class="hint">{w.hint}</span>}
    </div>
  );
}
