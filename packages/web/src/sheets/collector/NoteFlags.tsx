import type { PanelSheet } from '@sunlap/drawing/panelSheet';
import type { Notice } from '@sunlap/engine/numeric/notice';
import { Flag, noteKey, noteOpen } from '../../parts/Notes';
import { placeOf } from './panel-places';

/** The worst notes at their places on the drawing; one that is open shows wherever it ranks. */
export function NoteFlags({ notices, sheet }: { notices: readonly Notice[]; sheet: PanelSheet }) {
  return (
    <>
      {notices.map((n, i) => {
        const place = placeOf(n.path, sheet);
        const isOpen = noteOpen.value === noteKey(n);
        return place === null || (i > 2 && !isOpen) ? null : (
          <button
            key={noteKey(n)}
            type="button"
            class="flag-button"
            aria-label={`${i + 1}: ${n.message}`}
            style={{ left: `${place.x + (i % 3) * 26}px`, top: `${place.y}px` }}
            onClick={() => {
              noteOpen.value = isOpen ? null : noteKey(n);
            }}
          >
            <Flag n={i + 1} open={isOpen} />
          </button>
        );
      })}
    </>
  );
}
