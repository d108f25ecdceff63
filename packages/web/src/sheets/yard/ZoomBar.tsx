import type { YardView } from '@sunlap/drawing/yardPlan';
import { y } from '../../text/yard';
import { pushed, zoomed } from './zoom';

const STEP = 1.4;
const PUSH_PX = 60;
const ARROWS: Record<string, readonly [number, number]> = {
  ArrowLeft: [1, 0],
  ArrowRight: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Nearer, farther, everything; with the arrow keys the ground is pushed. */
export function ZoomBar({
  view,
  set,
  own,
}: {
  view: YardView;
  set: (view: YardView | null) => void;
  own: boolean;
}) {
  return (
    <fieldset
      class="yard-zoom"
      aria-label={y.zoom.bar}
      onKeyDown={(event) => {
        const way = ARROWS[event.key];
        if (way === undefined) return;
        event.preventDefault();
        set(pushed(view, way[0] * PUSH_PX, way[1] * PUSH_PX));
      }}
    >
      <button type="button" aria-label={y.zoom.nearer} onClick={() => set(zoomed(view, STEP))}>
        +
      </button>
      <button type="button" aria-label={y.zoom.farther} onClick={() => set(zoomed(view, 1 / STEP))}>
        −
      </button>
      <button type="button" aria-label={y.zoom.fit} disabled={!own} onClick={() => set(null)}>
        {y.zoom.fitWord}
      </button>
    </fieldset>
  );
}
