import { signal } from '@preact/signals';
import type { Project } from '@sunlap/project/schema/project';
import type { LifeCard } from '@sunlap/workbench/build/life-cards';
import { CAUTIONS } from '@sunlap/workbench/cautions/catalogue';
import { history } from '@sunlap/workbench/state/history';
import { flushSync } from 'preact/compat';
import { c } from '../text/cards';

/** Card that is being printed, the others staying off the paper; null prints all. */
const printing = signal<string | null>(null);

export function printCard(id: string | null): void {
  flushSync(() => {
    printing.value = id;
  });
  window.print();
}

/** Cautions that a step or a card names. */
export function CautionLines({ ids }: { ids: readonly string[] }) {
  const known = ids.flatMap((id) => CAUTIONS.get(id) ?? []);
  if (known.length === 0) return null;
  return (
    <div class="cautions" role="note">
      {known.map((one) => (
        <p key={one.id}>
          <strong>{one.title}</strong> {one.text}
        </p>
      ))}
    </div>
  );
}

function Card({ id, title, children }: { id: string; title: string; children: preact.ComponentChildren }) {
  return (
    <article class={`card life-card ${printing.value === id ? 'print-me' : ''}`}>
      <h3>{title}</h3>
      {children}
      <button
        type="button"
        class="act act-quiet no-print"
        aria-label={c.printOne(title)}
        onClick={() => printCard(id)}
      >
        {c.print}
      </button>
    </article>
  );
}

/** What a hand does at the heater through its life, one card each, and what was done to it so far. */
export function LifeCards({
  cards,
  project,
}: {
  cards: readonly LifeCard[];
  project: Pick<Project, 'asBuilt' | 'repairs' | 'testDays'>;
}) {
  const past = history(project);
  return (
    <div class="life-cards">
      {cards.map((card) => (
        <Card key={card.id} id={card.id} title={card.title}>
          <ol>
            {card.lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
          <CautionLines ids={card.cautions} />
        </Card>
      ))}
      {cards.length > 0 && (
        <Card id="history" title={c.history}>
          {past.length === 0 ? (
            <p class="hint">{c.noHistory}</p>
          ) : (
            <ul class="life-history">
              {past.map((entry) => (
                <li key={entry.path}>
                  <span class="history-date">{entry.date}</span> {entry.title}
                  {entry.text !== '' && ` · ${entry.text}`}
                </li>
              ))}
            </ul>
          )}
        </Card>
      )}
    </div>
  );
}
