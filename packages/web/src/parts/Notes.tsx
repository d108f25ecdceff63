import { signal } from '@preact/signals';
import type { Notice } from '@sunlap/engine/numeric/notice';
import { useApp } from '../app/context';
import { doc, editing, fresh, narrow, roomy, startWorking } from '../app/state';
import { mendFor } from '../shape/mend';
import { t } from '../text/catalogue';
import { later } from './later';

const CautionLine = later(async () => (await import('./CautionLine')).CautionLine);

/** Note that is touched; its place is shown on the drawing. */
export const noteOpen = signal<string | null>(null);
const all = signal(false);

/** A number is not parted from what it counts. */
const held = (text: string) =>
  text.replaceAll(/(\d) (?=%|ft|in\b|m\b|L|gal|gpm|°|psi|kPa|W|kW|Btu|h\b)/g, '$1\u00A0');

export const noteKey = (n: Notice): string => `${n.code} ${n.path}`;

/** The flag that stands beside a note and at its place on the drawing. */
export function Flag({ n, open }: { n: number; open: boolean }) {
  return (
    <svg
      class={`flag ${open ? 'flag-open' : ''}`}
      width="22"
      height="20"
      viewBox="0 0 22 20"
      aria-hidden="true"
    >
      <path d="M11 1.5 20.6 18.5H1.4z" class="flag-body" />
      <text x="11" y="15.6" text-anchor="middle">
        {n}
      </text>
    </svg>
  );
}

/** What it costs where that is known, else its kind. */
function costWords(n: Notice): string {
  const kind = t.notes.severity[n.severity];
  if (n.cost === undefined) return kind;
  return n.severity === 'heat' ? n.cost : `${kind} · ${n.cost}`;
}

interface Props {
  notices: readonly Notice[];
  /** Field of this sheet that a place in the file belongs to. */
  fieldFor: (path: string, code: string) => string | null;
}

/** As many as stand in the margin without scrolling. */
const few = () => (narrow.value || roomy.value ? 3 : 2);

/** Margin notes, worst first: what, what it costs, what mends it. */
export function Notes({ notices, fieldFor }: Props) {
  const { store } = useApp();
  const most = few();
  const shown = all.value ? notices : notices.slice(0, most);
  if (notices.length === 0) return <section class="notes" aria-label={t.notes.title} />;
  return (
    <section
      class={`notes ${fresh.value ? '' : 'notes-stale'} ${notices.some((n) => noteOpen.value === noteKey(n)) || all.value ? 'notes-open' : ''}`}
      aria-label={t.notes.title}
    >
      <div class="notes-in">
        <ol>
          {shown.map((n, i) => {
            const key = noteKey(n);
            const open = noteOpen.value === key;
            const mend = mendFor(n, doc.value);
            const field = fieldFor(n.path, n.code);
            return (
              <li key={key} class={`note note-${n.severity} ${open ? 'note-open' : ''}`}>
                <button
                  type="button"
                  class="note-main"
                  aria-expanded={open}
                  onClick={() => {
                    noteOpen.value = open ? null : key;
                  }}
                >
                  <Flag n={i + 1} open={open} />
                  <span class="note-body">
                    <span class="note-severity">{held(costWords(n))}</span>
                    <span class="note-what">{held(n.message)}</span>
                    {n.remedy !== undefined && <span class="note-mends">{held(n.remedy)}</span>}
                  </span>
                </button>
                {open && (
                  <div class="note-more">
                    {(mend !== null || field !== null) && (
                      <p class="note-acts">
                        {mend !== null && (
                          <button
                            type="button"
                            class="act"
                            onClick={() =>
                              store.apply(mend.label, { doc: mend.run(doc.value), undo: 'commit' })
                            }
                          >
                            {t.notes.mend}: {mend.label}
                          </button>
                        )}
                        {field !== null && (
                          <button
                            type="button"
                            class="act act-quiet"
                            onClick={(event) => {
                              const chip = document.querySelector<HTMLElement>(
                                `[data-field="${CSS.escape(field)}"]`,
                              );
                              chip?.scrollIntoView({ block: 'center' });
                              editing.value = { id: field, from: chip ?? event.currentTarget };
                            }}
                          >
                            {t.notes.field}
                          </button>
                        )}
                      </p>
                    )}
                    <CautionLine note={n} />
                  </div>
                )}
              </li>
            );
          })}
        </ol>
        {(startWorking.value || notices.length > most) && (
          <div class="notes-foot">
            {startWorking.value && <p class="notes-working">{t.notes.starting}</p>}
            {notices.length > most && (
              <button
                type="button"
                class="notes-more"
                aria-expanded={all.value}
                onClick={() => {
                  all.value = !all.value;
                }}
              >
                {all.value ? t.notes.fewer : t.notes.more(notices.length - most)}
              </button>
            )}
          </div>
        )}
      </div>
    </section>
  );
}
