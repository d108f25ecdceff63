import type { Notice } from '@sunlap/engine/numeric/notice';
import { cautionsFor, handOf } from '@sunlap/workbench/cautions/catalogue';

/** What to mind where this note sends the hand; nothing where it sends it nowhere. */
export function CautionLine({ note }: { note: Notice }) {
  const hand = handOf(note.path, `${note.message} ${note.remedy ?? ''}`);
  if (hand === null) return null;
  const [{ title, text }] = cautionsFor(hand);
  return (
    <p class="note-caution">
      <strong>{title}</strong> {text}
    </p>
  );
}
