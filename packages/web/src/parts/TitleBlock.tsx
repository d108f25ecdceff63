import { useState } from 'preact/hooks';
import { doc, fresh, latest, narrow, reference, whyOpen } from '../app/state';
import { t } from '../text/catalogue';
import { Counting } from './Counting';
import type { Readout } from './readout';

interface Props {
  number: number;
  name: string;
  scale: string;
  readouts: readonly Readout[];
  converged: boolean;
}

function Cell({ r }: { r: Readout }) {
  return (
    <button
      type="button"
      class={`cell ${r.first === true ? 'cell-first' : ''}`}
      onClick={() => {
        whyOpen.value = r.id;
      }}
    >
      <span class="cell-in">
        <span class="cell-label">{r.label}</span>
        <span class="cell-value">
          {r.word !== undefined ? (
            <span class="cell-word">{r.word}</span>
          ) : r.value === null ? (
            r.awaits === true ? (
              <span class="cell-awaits">…</span>
            ) : (
              '–'
            )
          ) : (
            <Counting value={r.value} write={(v) => r.write(v).number} />
          )}
          {r.word === undefined && r.value !== null && (
            <span class="cell-unit"> {r.unit ?? r.write(r.value).unit}</span>
          )}
        </span>
        <span class="cell-sub">
          {r.difference !== undefined ? (
            <span class="cell-difference">{r.difference}</span>
          ) : r.band !== undefined && r.band.low !== r.band.high ? (
            `${r.band.low} – ${r.band.high}`
          ) : (
            (r.sub ?? '\u00A0')
          )}
        </span>
        <span class="away">{t.why.short}</span>
      </span>
    </button>
  );
}

/** The few answers of the sheet, lower right; on a phone a bar at the bottom that opens. */
export function TitleBlock({ number, name, scale, readouts, converged }: Props) {
  const [open, setOpen] = useState(false);
  const failed = latest.value !== null && 'error' in latest.value;
  const small = narrow.value;
  const shown = small && !open ? readouts.slice(0, 3) : readouts;
  return (
    <section
      class={`title-block ${open ? 'title-open' : ''} ${fresh.value ? '' : 'title-stale'}`}
      aria-label={t.read.all}
      aria-busy={!fresh.value}
    >
      {failed ? (
        <p class="title-failed" role="alert">
          {t.read.failed}: {latest.value !== null && 'error' in latest.value ? latest.value.error : ''}
        </p>
      ) : (
        <div class="cells">
          {shown.map((r) => (
            <Cell key={r.id} r={r} />
          ))}
        </div>
      )}
      {small && (
        <button type="button" class="title-more" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? t.close : t.read.all}
        </button>
      )}
      <footer class="title-foot">
        <span class="title-number">{number}</span>
        <span class="title-name">
          <strong>{name}</strong>
          <span>
            {doc.value.project.name}
            {doc.value.project.invented === true && ` · ${t.invented}`}
          </span>
        </span>
        <span class="title-scale">
          <span>{scale}</span>
          <span>
            {!converged
              ? t.read.notConverged
              : reference.value !== null
                ? t.read.reference
                : doc.value.moment.at.replace('T', ' ')}
          </span>
        </span>
      </footer>
    </section>
  );
}
