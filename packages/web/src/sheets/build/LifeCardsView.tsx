import { doc } from '../../app/state';
import { LifeCards, printCard } from '../../parts/LifeCards';
import { c } from '../../text/cards';
import type { Built } from './protocol';

/** What a hand does at the heater through its life, one card each. */
export function LifeCardsView({ built }: { built: Built }) {
  return (
    <div class="build-page life-sheet">
      <header class="build-page-head no-print">
        <h2>{c.title}</h2>
        <p class="hint">
          {c.hint}{' '}
          <button type="button" class="act act-quiet" onClick={() => printCard(null)}>
            {c.printAll}
          </button>
        </p>
      </header>
      <LifeCards cards={built.values.cards} project={doc.value.project} />
    </div>
  );
}
