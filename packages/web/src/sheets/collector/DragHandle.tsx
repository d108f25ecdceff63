import type { PanelSheet } from '@sunlap/drawing/panelSheet';
import { useRef } from 'preact/hooks';
import { doc, units } from '../../app/state';
import { spacing_m } from '../../edits/extent';
import type { Field } from '../../parts/field';
import { fieldText } from '../../shape/fieldText';
import { say } from '../../shape/quantity';
import type { Store } from '../../store/store';
import { t } from '../../text/catalogue';

interface Props {
  what: 'length' | 'count';
  sheet: PanelSheet;
  field: Field | undefined;
  store: Store;
}

/** The end of a dimension line, to be pulled. Everything follows while it moves; letting go makes one step of it. */
export function DragHandle({ what, sheet, field, store }: Props) {
  const start = useRef<{
    x: number;
    y: number;
    value: number;
    scale: { u: number; v: number };
    pitch: number;
  } | null>(null);
  const anchor = sheet.anchors.find((a) => a.id === `drag-${what}`);
  if (anchor === undefined || field?.type !== 'number') return null;
  const value = field.value ?? field.typical;
  const section = doc.value.project.collector.sections.find((s) => s.id === sheet.boxes[0]?.id);
  const upright = section?.direction === 'slope';
  const horizontal = (what === 'length') !== upright;
  const put = (raw: number) => {
    const stepped = what === 'count' ? Math.round(raw) : snap(raw, units.value === 'us' ? 0.0762 : 0.05);
    const v = Math.min(field.max, Math.max(field.min, stepped));
    const shown = say(v, field.kind, units.value);
    store.apply(field.stepName(shown), { doc: field.set(doc.value, v), undo: 'drag' });
  };
  return (
    <button
      type="button"
      class={`handle ${horizontal ? 'handle-x' : 'handle-y'}`}
      role="slider"
      aria-label={t.chip.drag(field.label)}
      aria-valuenow={Math.round(value * 1000) / 1000}
      aria-valuemin={field.min}
      aria-valuemax={field.max}
      aria-valuetext={fieldText(field, units.value)}
      aria-orientation={horizontal ? 'horizontal' : 'vertical'}
      style={{ left: `${anchor.x}px`, top: `${anchor.y}px` }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        start.current = {
          x: event.clientX,
          y: event.clientY,
          value,
          scale: sheet.scale,
          pitch: section === undefined ? 0.08 : spacing_m(section.banks[0]),
        };
      }}
      onPointerMove={(event) => {
        const s = start.current;
        if (s === null) return;
        const px = horizontal ? event.clientX - s.x : s.y - event.clientY;
        const metres = px / (horizontal ? s.scale.u : s.scale.v);
        put(s.value + (what === 'length' ? metres : metres / s.pitch));
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
        const way =
          event.key === 'ArrowRight' || event.key === 'ArrowUp'
            ? 1
            : event.key === 'ArrowLeft' || event.key === 'ArrowDown'
              ? -1
              : 0;
        if (event.key === 'Escape') store.cancelDrag();
        if (way === 0) return;
        event.preventDefault();
        const v = field.step(value, way);
        if (v < field.min || v > field.max) return;
        store.apply(field.stepName(say(v, field.kind, units.value)), {
          doc: field.set(doc.value, v),
          undo: 'commit',
        });
      }}
    />
  );
}

const snap = (v: number, step: number) => Math.round(v / step) * step;
