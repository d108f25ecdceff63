import { type BuildDrawing, buildSheet } from '@sunlap/drawing/buildPlan';
import { useMemo, useState } from 'preact/hooks';
import { narrow } from '../../app/state';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { b } from '../../text/build';

/** A drawing this much wider than high is turned upright on a narrow screen: its letters stay larger. */
const WIDE = 1.25;

/** One drawing of the set; whole in its place; as wide as the place, on a phone as large as on paper, at a touch. */
export function Plan({ drawing, name }: { drawing: BuildDrawing; name: string }) {
  const sheet = useMemo(() => buildSheet(drawing), [drawing]);
  const { ref, width } = useSize<HTMLDivElement>();
  const [large, setLarge] = useState(false);
  const picture = {
    items: sheet.items,
    width: sheet.width,
    height: sheet.height,
    name: `plan-${drawing.id}`,
    title: drawing.title,
    says: drawing.description,
  };
  if (!narrow.value)
    return (
      <div class={`plan-desk ${large ? 'plan-desk-large' : ''}`}>
        <p class="plan-size">
          <button type="button" class="act act-quiet" aria-pressed={large} onClick={() => setLarge(!large)}>
            {b.drawing.wide}
          </button>
        </p>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide drawing is moved with the arrow keys */}
        <section class="plan" tabIndex={0} aria-label={b.drawing.scroll(name)}>
          <Picture {...picture} />
        </section>
      </div>
    );
  const turned = sheet.width > sheet.height * WIDE;
  const scale = Math.min(1, width / (turned ? sheet.height : sheet.width));
  return (
    <div class="plan-phone" ref={ref}>
      {(scale < 1 || turned) && (
        <p class="plan-size">
          <button type="button" class="act act-quiet" aria-pressed={large} onClick={() => setLarge(!large)}>
            {b.drawing.large}
          </button>
          {turned && !large && <span class="hint">{b.drawing.turned}</span>}
        </p>
      )}
      {large ? (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide drawing is moved with the arrow keys
        <section class="plan" tabIndex={0} aria-label={b.drawing.scroll(name)}>
          <Picture {...picture} />
        </section>
      ) : (
        width > 0 && <Picture {...picture} turned={turned} scale={scale} />
      )}
    </div>
  );
}
