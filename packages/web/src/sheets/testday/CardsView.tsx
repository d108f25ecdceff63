import { signal } from '@preact/signals';
import { CAUTIONS } from '@sunlap/workbench/cautions/catalogue';
import { flushSync } from 'preact/compat';
import { doc } from '../../app/state';
import { useSide } from '../../compute/side';
import { d } from '../../text/testday';

/** Card that is being printed; the others stay off the paper. */
const printing = signal<string | null>(null);

/** What a hand does at the heater, as cards made from this design. */
export function CardsView() {
  const { project } = doc.value;
  const built = useSide('cards', 'build', { project }, [
    project.collector,
    project.loop,
    project.site,
    project.units,
  ]);
  const cards = built.answer?.cards ?? null;
  return (
    <section class="life" aria-labelledby="cards-title">
      <h2 id="cards-title">{d.cards.title}</h2>
      <p class="hint">{cards === null ? (built.error ?? d.cards.working) : d.cards.hint}</p>
      <div class="life-cards">
        {(cards ?? []).map((card) => (
          <article key={card.id} class={`card life-card ${printing.value === card.id ? 'print-me' : ''}`}>
            <h3>{card.title}</h3>
            <ol>
              {card.lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ol>
            {card.cautions.length > 0 && (
              <div class="cautions">
                {card.cautions.map((id) => {
                  const caution = CAUTIONS.get(id);
                  return (
                    <p key={id}>
                      <strong>{caution?.title ?? id}</strong> {caution?.text}
                    </p>
                  );
                })}
              </div>
            )}
            <button
              type="button"
              class="act act-quiet no-print"
              aria-label={`${d.cards.print}: ${card.title}`}
              onClick={() => {
                flushSync(() => {
                  printing.value = card.id;
                });
                window.print();
              }}
            >
              {d.cards.print}
            </button>
          </article>
        ))}
      </div>
    </section>
  );
}
