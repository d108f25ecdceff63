import { signal } from '@preact/signals';
import { flushSync } from 'preact/compat';
import { b } from '../../text/build';
import { CautionLines } from './CautionLines';
import type { Built } from './protocol';

/** Card that is being printed; null prints all. */
const printing = signal<string | null>(null);

function print(id: string | null): void {
  flushSync(() => {
    printing.value = id;
  });
  window.print();
}

/** What a hand does at the heater through its life, one card each. */
export function LifeCardsView({ built }: { built: Built }) {
  return (
    <div class="build-page life-sheet">
      <header class="build-page-head no-print">
        <h2>{b.cards.title}</h2>
        <p class="hint">
          {b.cards.hint}{' '}
          <button type="button" class="act act-quiet" onClick={() => print(null)}>
            {b.cards.printAll}
          </button>
        </p>
      </header>
      <div class="life-cards">
        {built.values.cards.map((card) => (
          <article key={card.id} class={`card life-card ${printing.value === card.id ? 'print-me' : ''}`}>
            <h3>{card.title}</h3>
            <ol>
              {card.lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ol>
            <CautionLines ids={card.cautions} />
            <button
              type="button"
              class="act act-quiet no-print"
              aria-label={b.cards.printOne(card.title)}
              onClick={() => print(card.id)}
            >
              {b.cards.print}
            </button>
          </article>
        ))}
      </div>
    </div>
  );
}
