import { letterOf, loopProfile } from '@sunlap/drawing/loopProfile';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { LoopPiece } from '@sunlap/workbench/results';
import { doc, narrow, reference, referenceStudy, study, units } from '../../app/state';
import { Chip } from '../../parts/Chip';
import { type FieldRow, FieldRows } from '../../parts/FieldRows';
import type { Field } from '../../parts/field';
import { Flag, noteKey, noteOpen } from '../../parts/Notes';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { say, show } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { loopText } from '../../text/loop';
import { fieldsAt } from './fields';
import { profilePieces, wayOf } from './way';

/** Room a column needs before its controls can stand under the drawing. */
const LEAST_COLUMN = 68;

function PieceValues({ piece }: { piece: LoopPiece }) {
  const u = units.value;
  if (study.value?.flow.result.attainable === false) return <span class="piece-values">–</span>;
  return (
    <span class="piece-values">
      {piece.velocity_ms > 0 && <span>{say(piece.velocity_ms, 'speed', u)}</span>}
      {piece.kind === 'pump' ? (
        <span>+{say(-piece.headLoss_m, 'head', u)}</span>
      ) : (
        <span>−{say(Math.max(0, piece.headLoss_m), 'head', u)}</span>
      )}
    </span>
  );
}

/** What stands in the list of pieces and not under the drawing. */
const LISTED = /(endHeight_m|height_m|depth_m|\/type|kv_m3h|extraK|#move)$/;

/** What the value on a chip of the schedule is. */
function wordOf(f: Field): string | undefined {
  if (/length_m$/.test(f.id)) return loopText.word.length;
  if (/(height_m|Height_m|depth_m)$/.test(f.id)) return loopText.word.height;
  return /(opening|toCollector)$/.test(f.id) ? loopText.word.ratio : undefined;
}

function says(main: readonly LoopPiece[]): string {
  const u = units.value;
  return main
    .map(
      (p, i) =>
        t.says.piece(letterOf(i), p.name, say(p.endHeight_m, 'head', u), say(p.endHead_m, 'head', u)) +
        (p.endGauge_Pa < -100 ? t.says.vacuum(say(-p.endGauge_Pa, 'pressure', u)) : ''),
    )
    .join('. ');
}

/** The way of the water as one drawing that is also a graph, with each piece's size and length under it. */
export function LoopDrawing({
  fields,
  more,
  notices,
}: {
  fields: readonly Field[];
  more: readonly FieldRow[];
  notices: readonly Notice[];
}) {
  const { ref, width, height } = useSize<HTMLDivElement>();
  const now = study.value;
  const u = units.value;
  const small = narrow.value;
  const way = now === null ? { main: [], beside: [] } : wayOf(now);
  const margin = small
    ? { left: 40, right: 8, top: 26, bottom: 32 }
    : { left: 58, right: 20, top: 34, bottom: 34 };
  const ready = now !== null && width > 60 && height > 60 && way.main.length > 0;
  const columns =
    !small && (width - margin.left - margin.right) / Math.max(1, way.main.length) >= LEAST_COLUMN;
  const held = referenceStudy.value;
  const heldDoc = reference.value?.doc;
  const sheet = ready
    ? loopProfile(profilePieces(way.main, now, doc.value.project), {
        width,
        height,
        margin,
        leastPiece: columns
          ? Math.min(78, (width - margin.left - margin.right) / way.main.length)
          : Math.min(23, (width - margin.left - margin.right) / way.main.length),
        heightText: (v) => show(v, 'head', u).number.replace(/\.0+$/, ''),
        heightUnit_m: u === 'us' ? 0.3048 : 1,
        words: { head: loopText.head, pipe: loopText.pipe, pool: loopText.pool, vacuum: loopText.vacuum },
        letters: true,
        ...(held !== null && heldDoc !== undefined
          ? { ghost: profilePieces(wayOf(held).main, held, heldDoc.project) }
          : {}),
      })
    : null;
  const pieceOf = (path: string) => way.main.find((p) => path.startsWith(p.path) && p.path !== '');
  // a suction's first pipe is drawn as the suction itself
  const chips = (piece: LoopPiece) =>
    piece.kind === 'suction'
      ? [...fieldsAt(fields, `${piece.path}/path/0`), ...fieldsAt(fields, piece.path)]
      : fieldsAt(fields, piece.path);
  const listed = [...way.main, ...way.beside];
  const letter = new Map(way.main.map((p, i) => [p, letterOf(i)]));
  return (
    <section class={`drawing loop-drawing ${columns ? 'loop-columns' : ''}`} aria-label={t.picture.loop}>
      <div class="canvas" ref={ref}>
        {sheet !== null && (
          <>
            <Picture
              items={sheet.items}
              width={width}
              height={height}
              name="loop"
              title={t.picture.loop}
              says={says(way.main)}
            >
              <text class="axis-name" x={margin.left - 8} y={16} text-anchor="end">
                {show(1, 'head', u).unit}
              </text>
            </Picture>
            {notices.map((n, i) => {
              const piece = n.path === '' ? undefined : pieceOf(n.path);
              const place = sheet.pieces.find((p) => p.id === piece?.id);
              const open = noteOpen.value === noteKey(n);
              return place === undefined || (i > 2 && !open) ? null : (
                <button
                  key={noteKey(n)}
                  type="button"
                  class="flag-button"
                  aria-label={`${i + 1}: ${n.message}`}
                  style={{
                    left: `${(place.x0 + place.x1) / 2 + (i % 2) * 18}px`,
                    top: `${Math.min(place.y + 34, height - 46)}px`,
                  }}
                  onClick={() => {
                    noteOpen.value = open ? null : noteKey(n);
                  }}
                >
                  <Flag n={i + 1} open={open} />
                </button>
              );
            })}
          </>
        )}
      </div>
      {sheet !== null && columns && (
        <ol class="strip">
          {way.main.map((piece, i) => {
            const place = sheet.pieces[i];
            return (
              <li key={piece.id} style={{ left: `${place.x0}px`, width: `${place.x1 - place.x0}px` }}>
                <span class="strip-name">{piece.name}</span>
                <PieceValues piece={piece} />
                {chips(piece)
                  .filter((f) => !LISTED.test(f.id))
                  .slice(0, 2)
                  .map((f) => (
                    <Chip key={f.id} field={f} />
                  ))}
                {chips(piece)
                  .filter((f) => f.id.endsWith('#move'))
                  .slice(0, 1)
                  .map((f) => (
                    <Chip key={f.id} field={{ ...f, chip: '±' }} />
                  ))}
              </li>
            );
          })}
        </ol>
      )}
      {listed.length > 0 && (
        <details class="schedule">
          <summary>{loopText.otherWays}</summary>
          <ol>
            {listed.map((piece) => (
              <li key={piece.id + piece.path}>
                <span class="ring" aria-hidden="true">
                  {letter.get(piece) ?? '·'}
                </span>
                <span class="schedule-name">{piece.name}</span>
                <span class="schedule-chips">
                  {chips(piece).map((f) => (
                    <Chip key={f.id} field={f} word={wordOf(f)} />
                  ))}
                </span>
                <PieceValues piece={piece} />
              </li>
            ))}
          </ol>
          <FieldRows rows={more} />
        </details>
      )}
    </section>
  );
}
