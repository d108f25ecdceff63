import { describe, expect, it } from 'vitest';
import {
  climbOf,
  firstRoute,
  pipeLength,
  routeLength,
  routeOf,
  withCorners,
  withPipeLength,
  withRoute,
} from '../../src/sheets/yard/routes';
import { pushed, zoomed } from '../../src/sheets/yard/zoom';
import { quinceDoc } from '../examples';

const { project } = quinceDoc();
const panel = [
  [10, 10],
  [16, 10],
  [16, 14],
  [10, 14],
] as const;

describe('ways of the pipe', () => {
  it('have the length of their stretches, and keep it when a corner is put in the middle', () => {
    const route: [number, number][] = [
      [0, 0],
      [3, 0],
      [3, 4],
    ];
    expect(routeLength(route)).toBe(7);
    const more = withCorners(route, 1);
    expect(more).toHaveLength(4);
    expect(routeLength(more)).toBeCloseTo(7, 9);
    expect(withCorners(more, -1)).toHaveLength(3);
    expect(withCorners(route.slice(0, 2), -1)).toHaveLength(2);
  });

  it('begin by the pool and end at the panel', () => {
    const route = firstRoute(project, 'feed', panel);
    expect(route.length).toBeGreaterThanOrEqual(2);
    const [x, y] = route[route.length - 1];
    expect(Math.min(...panel.map(([px, py]) => Math.hypot(px - x, py - y)))).toBeLessThan(0.01);
    const kept = withRoute(project, 'feed', route);
    expect(routeOf(kept, 'feed')).toEqual(route);
    expect(routeOf(withRoute(kept, 'feed', null), 'feed')).toBeUndefined();
  });

  it('climb by the heights that are known, up and down alike', () => {
    const pipe = project.loop.feed.findIndex((e) => e.kind === 'pipe');
    const of = (profile: { at_m: number; height_m: number }[] | undefined) => ({
      ...project,
      loop: {
        ...project.loop,
        feed: project.loop.feed.map((e, i) => (i === pipe && e.kind === 'pipe' ? { ...e, profile } : e)),
      },
    });
    const piece = { path: `/loop/feed/${pipe}`, startHeight_m: 0.5, endHeight_m: 2 };
    expect(climbOf(of(undefined), 'feed', [piece])).toBe(1.5);
    // over a wall of 3 m: 2.5 up and 1 down
    expect(climbOf(of([{ at_m: 1, height_m: 3 }]), 'feed', [piece])).toBe(3.5);
    expect(climbOf(project, 'feed', [])).toBeNull();
  });

  it('hand their length to the loop, each run in proportion', () => {
    const now = pipeLength(project, 'feed');
    const longer = withPipeLength(project, 'feed', now * 1.5);
    expect(pipeLength(longer, 'feed')).toBeCloseTo(now * 1.5, 2);
    expect(longer.loop.return).toBe(project.loop.return);
    expect(withPipeLength(project, 'feed', Number.NaN)).toBe(project);
  });
});

describe('the view of the yard', () => {
  const view = { x_m: 2, y_m: -1, scale: 20 };
  it('holds the point under the pointer still', () => {
    const near = zoomed(view, 1.7, 80, -40);
    expect(near.scale).toBeCloseTo(34, 9);
    expect(near.x_m + 80 / near.scale).toBeCloseTo(view.x_m + 80 / view.scale, 9);
    expect(near.y_m + 40 / near.scale).toBeCloseTo(view.y_m + 40 / view.scale, 9);
    expect(zoomed(view, 1e9).scale).toBe(400);
  });
  it('goes with the hand', () => {
    expect(pushed(view, 40, 20)).toEqual({ x_m: 0, y_m: 0, scale: 20 });
  });
});
