import { useApp } from '../../app/context';
import { registerFields } from '../../app/fields';
import { doc, narrow } from '../../app/state';
import { Cautions } from '../../parts/Cautions';
import { d } from '../../text/testday';
import { AnswerBar, AnswerCard } from './AnswerCard';
import { CardsView } from './CardsView';
import { daysByDate } from './edits';
import { HeatCard, SamePailCard } from './HeatCards';
import { HistoryView } from './HistoryView';
import { useJudged } from './judged';
import { LogView } from './LogView';
import { PailCard } from './PailCard';
import { SkyCard } from './SkyCard';
import { beginDay, day, dayId, VIEWS, view } from './state';
import { TubesView } from './TubesView';
import { WaysCard } from './WaysCard';

function Head() {
  const { store } = useApp();
  const days = daysByDate(doc.value.project);
  const now = day.value;
  const picks = view.value === 'measure' || view.value === 'tubes';
  return (
    <header class="testday-head no-print">
      <fieldset class="segments testday-views" aria-label={d.viewsLabel}>
        {VIEWS.map((v) => (
          <button
            key={v}
            type="button"
            aria-pressed={view.value === v}
            onClick={() => {
              view.value = v;
            }}
          >
            {d.views[v]}
          </button>
        ))}
      </fieldset>
      {picks && now !== null && (
        <div class="testday-day">
          <select
            aria-label={d.day}
            value={now.id}
            onChange={(event) => {
              dayId.value = event.currentTarget.value;
            }}
          >
            {days.map((one, i) => (
              <option key={one.id} value={one.id}>
                {i + 1} · {one.name ?? one.at.replace('T', ' ')}
              </option>
            ))}
          </select>
          <button type="button" class="act act-quiet" onClick={() => beginDay(store)}>
            {d.newDay}
          </button>
        </div>
      )}
    </header>
  );
}

function Begin() {
  const { store } = useApp();
  return (
    <section class="card begin">
      <p>{d.intro}</p>
      <button type="button" class="watch-key" onClick={() => beginDay(store)}>
        {d.begin}
      </button>
      <Cautions hand="outlet" />
    </section>
  );
}

/** The test day: made for a phone in a wet hand. */
export default function TestDaySheet() {
  registerFields([]);
  const judged = useJudged();
  const now = day.value;
  const shown = view.value;
  const small = narrow.value;
  return (
    <div class={`testday testday-${shown}`}>
      <Head />
      {shown === 'measure' && (
        <div class="testday-body">
          {now === null ? (
            <Begin />
          ) : (
            <>
              <div class="testday-take">
                <PailCard />
                <HeatCard />
                <SamePailCard />
                {small && <AnswerCard judged={judged} />}
                <SkyCard />
                <WaysCard />
              </div>
              {!small && (
                <div class="testday-give">
                  <AnswerCard judged={judged} />
                </div>
              )}
              <AnswerBar judged={judged} />
            </>
          )}
        </div>
      )}
      {shown === 'tubes' && <TubesView judged={judged} />}
      {shown === 'log' && <LogView />}
      {shown === 'history' && <HistoryView />}
      {shown === 'cards' && <CardsView />}
    </div>
  );
}
