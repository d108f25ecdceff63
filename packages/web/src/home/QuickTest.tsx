import { useState } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc, units } from '../app/state';
import { Cautions } from '../parts/Cautions';
import { QuantityInput } from '../parts/QuantityInput';
import { addPair, addTime, localTime, newDay, withDay } from '../sheets/testday/edits';
import { useJudged } from '../sheets/testday/judged';
import { dayId } from '../sheets/testday/state';
import { answerSays, percent } from '../sheets/testday/words';
import { f } from '../text/first';
import { d } from '../text/testday';

/** One pail and two temperatures, and what they say of the panel. What to do about it is the next cheap step, below. */
export function QuickTest() {
  const { store, actions } = useApp();
  const [seconds, setSeconds] = useState<number | null>(null);
  const [pool, setPool] = useState<number | null>(null);
  const [back, setBack] = useState<number | null>(null);
  const [asked, setAsked] = useState(doc.value.project.testDays.length === 0);
  const judged = useJudged();
  const whole = seconds !== null && pool !== null && back !== null;
  const open = () => actions.goTo('testday');
  const [doubt] = judged.answer?.contributions ?? [];
  if (!asked)
    return (
      <section
        class={`quick ${judged.fresh ? '' : 'title-stale'}`}
        aria-labelledby="quick-title"
        aria-busy={!judged.fresh}
      >
        <h2 id="quick-title">{f.quick.answer}</h2>
        <p class="quick-says" aria-live="polite">
          {judged.answer === null
            ? (judged.error ?? d.answer.working)
            : answerSays(judged.answer, units.value)}
        </p>
        {doubt !== undefined && (
          <p>
            {d.answer.doubt(doubt.label.charAt(0).toUpperCase() + doubt.label.slice(1), percent(doubt.share))}
          </p>
        )}
        <p class="note-acts">
          <button type="button" class="act act-quiet" onClick={open}>
            {f.quick.more}
          </button>
          <button type="button" class="act act-quiet" onClick={() => setAsked(true)}>
            {f.quick.again}
          </button>
        </p>
      </section>
    );
  return (
    <section class="quick" aria-labelledby="quick-title">
      <h2 id="quick-title">{f.home.measure}</h2>
      <form
        class="ask-fields"
        onSubmit={(event) => {
          event.preventDefault();
          if (seconds === null || pool === null || back === null) return;
          const { doc: now } = store.get();
          const { project } = now;
          const at = localTime(new Date(), project.site.timeZone);
          const day = addPair(addTime(newDay(project, at), project.units, seconds), pool, back);
          store.apply(d.steps.begin(at.replace('T', ' ')), {
            doc: { ...now, project: withDay(project, { ...day, weather: { sky: 'clear' } }) },
            undo: 'commit',
          });
          dayId.value = day.id;
          setAsked(false);
        }}
      >
        <div class="ask-three">
          <QuantityInput
            label={f.quick.seconds(f.quick.pail[units.value])}
            kind="time"
            value={seconds}
            min={0.5}
            max={7200}
            onValue={setSeconds}
          />
          <QuantityInput
            label={d.heat.inlet}
            kind="temperature"
            value={pool}
            min={-5}
            max={60}
            onValue={setPool}
          />
          <QuantityInput
            label={d.heat.outlet}
            kind="temperature"
            value={back}
            min={-5}
            max={95}
            onValue={setBack}
          />
        </div>
        <p class="hint">{f.quick.hint}</p>
        <p class="note-acts">
          <button type="submit" class="act" disabled={!whole}>
            {f.quick.judge}
          </button>
          <button type="button" class="act act-quiet" onClick={open}>
            {f.quick.watch}
          </button>
        </p>
      </form>
      <Cautions hand="outlet" short />
    </section>
  );
}
