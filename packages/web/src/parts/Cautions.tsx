import { cautionsFor, type Hand } from '@sunlap/workbench/cautions/catalogue';
import { t } from '../text/catalogue';

/** Cautions where the hand is. The first is always read, the others one touch away. */
export function Cautions({ hand, short = false }: { hand: Hand; short?: boolean }) {
  const [first, ...rest] = cautionsFor(hand);
  return (
    <aside class="cautions" aria-label={t.cautions.title}>
      <p>
        <svg class="caution-mark" width="16" height="15" viewBox="0 0 16 15" aria-hidden="true">
          <path
            d="M8 1.2 15 14H1z"
            fill="none"
            stroke="currentColor"
            stroke-width="1.5"
            stroke-linejoin="round"
          />
          <path d="M8 5.4v4M8 11v1.4" stroke="currentColor" stroke-width="1.7" />
        </svg>
        <strong>{first.title}</strong> {!short && first.text}
      </p>
      {rest.length > 0 && (
        <details>
          <summary>{t.cautions.more}</summary>
          {short && <p>{first.text}</p>}
          {rest.map((c) => (
            <p key={c.id}>
              <strong>{c.title}</strong> {c.text}
            </p>
          ))}
          <p>{t.cautions.deferral}</p>
        </details>
      )}
    </aside>
  );
}
