import { doc } from '../../app/state';
import { useSide } from '../../compute/side';
import { LifeCards, printCard } from '../../parts/LifeCards';
import { c } from '../../text/cards';

/** What a hand does at the heater, as cards made from this design. */
export function CardsView() {
  const { project } = doc.value;
  const built = useSide('cards', 'build', { project }, [
    project.collector,
    project.loop,
    project.site,
    project.units,
    project.season,
  ]);
  const cards = built.answer?.cards ?? null;
  return (
    <section class="life" aria-labelledby="cards-title">
      <h2 id="cards-title">{c.title}</h2>
      <p class="hint">
        {cards === null ? (built.error ?? c.working) : c.hint}{' '}
        {cards !== null && (
          <button type="button" class="act act-quiet no-print" onClick={() => printCard(null)}>
            {c.printAll}
          </button>
        )}
      </p>
      <LifeCards cards={cards ?? []} project={project} />
    </section>
  );
}
