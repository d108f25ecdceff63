import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { doc, editing, focus, narrow } from '../app/state';
import { Cautions } from '../parts/Cautions';
import type { Field } from '../parts/field';
import { t } from '../text/catalogue';
import { editorText } from '../text/editor';
import { ActsEditor } from './ActsEditor';
import { ChoiceEditor } from './ChoiceEditor';
import { NumberEditor } from './NumberEditor';
import { PipeEditor } from './PipeEditor';

/** Places a box beside what opened it, within the window. */
function usePlace(from: HTMLElement | null, box: { current: HTMLElement | null }, key: unknown) {
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return;
    if (narrow.value) {
      element.style.left = '';
      element.style.top = '';
      return;
    }
    const r = from?.isConnected === true ? from.getBoundingClientRect() : null;
    const { offsetWidth: w, offsetHeight: h } = element;
    const [vw, vh] = [window.innerWidth, window.innerHeight];
    const x = r === null ? (vw - w) / 2 : Math.min(Math.max(8, r.left + r.width / 2 - w / 2), vw - w - 8);
    const below = r === null ? vh * 0.18 : r.bottom + 10;
    const y = r !== null && below + h > vh - 8 ? Math.max(8, r.top - h - 10) : below;
    element.style.left = `${x}px`;
    element.style.top = `${y}px`;
  }, [from, key]);
}

/** The one editor: a small sheet beside the chip, or from below on a phone. */
export function EditorBox({ fields }: { fields: readonly Field[] }) {
  const open = editing.value;
  const field = open === null ? undefined : fields.find((f) => f.id === open.id);
  const box = useRef<HTMLDivElement>(null);
  usePlace(open?.from ?? null, box, field?.id);
  const id = field?.id;
  useEffect(() => {
    if (id === undefined) return;
    const onPointer = (event: PointerEvent) => {
      if (box.current !== null && !box.current.contains(event.target as Node)) close(false);
    };
    const timer = setTimeout(() => document.addEventListener('pointerdown', onPointer), 0);
    return () => {
      clearTimeout(timer);
      document.removeEventListener('pointerdown', onPointer);
    };
  }, [id]);
  function close(refocus: boolean) {
    const back = editing.value;
    editing.value = null;
    if (!refocus || back === null) return;
    const again = document.querySelector<HTMLElement>(`[data-field="${CSS.escape(back.id)}"]`);
    (back.from?.isConnected === true ? back.from : again)?.focus();
  }
  if (field === undefined) return null;
  return (
    <div
      class="editor"
      ref={box}
      role="dialog"
      aria-label={field.label}
      onKeyDown={(event) => {
        if (event.key === 'Escape') {
          event.stopPropagation();
          close(true);
        }
      }}
    >
      <div class="editor-head">
        <h2>{field.label}</h2>
        <button type="button" class="plain" aria-label={t.close} onClick={() => close(true)}>
          ×
        </button>
      </div>
      {field.type === 'number' && <NumberEditor key={field.id} field={field} done={() => close(true)} />}
      {field.type === 'choice' && field.acts === true && (
        <ActsEditor key={field.id} field={field} done={() => close(true)} />
      )}
      {field.type === 'choice' && field.acts !== true && (
        <ChoiceEditor key={field.id} field={field} done={() => close(true)} />
      )}
      {field.type === 'pipe' && <PipeEditor key={field.id} field={field} done={() => close(true)} />}
      {field.hint !== undefined && <p class="hint">{field.hint}</p>}
      {field.path?.startsWith('/collector/sections') === true &&
        doc.value.project.collector.sections.length > 1 && (
          <p class="hint">
            {focus.value === null
              ? editorText.scopeAll
              : editorText.scopeOne(
                  doc.value.project.collector.sections.find((s) => s.id === focus.value)?.name ?? focus.value,
                )}
          </p>
        )}
      {field.hand !== undefined && <Cautions hand={field.hand} />}
    </div>
  );
}
