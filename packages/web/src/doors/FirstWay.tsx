import { type Doubt, withDoubt } from '@sunlap/project/start/answers';
import { useEffect, useRef, useState } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc, study, units } from '../app/state';
import { useHeatBand } from '../home/heat-band';
import { OwnPanel } from '../home/OwnPanel';
import { BandBar } from '../parts/BandBar';
import { say } from '../shape/quantity';
import { f } from '../text/first';
import { Lie } from './questions/Lie';
import { Panel } from './questions/Panel';
import { Pipe } from './questions/Pipe';
import { Place } from './questions/Place';
import { Pool } from './questions/Pool';
import { Pump } from './questions/Pump';
import type { QuestionProps } from './questions/props';
import { answer, answersNow, goOn, QUESTIONS, type Question, way } from './state';

const BODY: Record<Question, (props: QuestionProps) => preact.JSX.Element> = {
  place: Place,
  pool: Pool,
  pump: Pump,
  pipe: Pipe,
  lie: Lie,
  panel: Panel,
};

/** What "I don't know" leaves in doubt. */
const DOUBT: Record<Question, Doubt> = {
  place: 'place',
  pool: 'pool',
  pump: 'pump',
  pipe: 'pipe',
  lie: 'placement',
  panel: 'plumbing',
};

/** Heat of the panel so far with its band; the scale stays, so that a wider band is seen to be wider. */
function Strip() {
  const system = units.value;
  const heat = study.value?.heat?.result.heat_W ?? null;
  const { band, fresh } = useHeatBand();
  const max = useRef(0);
  const high = band?.high ?? heat ?? 0;
  if (high > max.current) max.current = high * 1.5;
  if (high > 0 && high < max.current / 4) max.current = high * 1.5;
  const range =
    band === null ? f.working : f.band(say(band.low, 'heatRate', system), say(band.high, 'heatRate', system));
  return (
    <section class={`strip-band ${fresh ? '' : 'title-stale'}`} aria-label={f.strip} aria-busy={!fresh}>
      <p class="strip-head">
        <span>{doc.value.project.site.latitude_deg < 0 ? f.stripSouth : f.strip}</span>
        <strong>{say(heat, 'heatRate', system)}</strong>
      </p>
      <BandBar
        low={band?.low ?? null}
        value={heat}
        high={band?.high ?? null}
        max={max.current || 1}
        label={range}
      />
      <p class="hint" aria-live="polite" data-band>
        {range}
      </p>
    </section>
  );
}

/** Six questions, each answered on a picture, with the panel and its heat beside them all the time. */
export default function FirstWay() {
  const { store, actions } = useApp();
  const at = way.value;
  const head = useRef<HTMLHeadingElement>(null);
  const [asked, setAsked] = useState(-1);
  const step = at?.step ?? 0;
  useEffect(() => {
    if (asked !== -1 && asked !== step) head.current?.focus();
    setAsked(step);
    window.scrollTo(0, 0);
  }, [step]);
  if (at === null) return null;
  const question = QUESTIONS[step];
  const Body = BODY[question];
  const answers = answersNow(doc.value);
  const doubt = DOUBT[question];
  const unsure = answers.unsure.includes(doubt);
  const last = step === QUESTIONS.length - 1;
  const finish = () => {
    goOn(null);
    actions.goTo('home');
    window.scrollTo(0, 0);
  };
  return (
    <div class={`first first-${question}`}>
      <section class="first-ask" aria-labelledby="first-title">
        <p class="first-progress">
          <span aria-hidden="true" class="first-ticks">
            {QUESTIONS.map((q, i) => (
              <i key={q} class={i < step ? 'done' : i === step ? 'here' : ''} />
            ))}
          </span>
          <span>{f.step(step + 1, QUESTIONS.length)}</span>
          <button type="button" class="quiet" onClick={finish}>
            {f.leave}
          </button>
        </p>
        <h2 id="first-title" ref={head} tabIndex={-1}>
          {f.ask[question]}
        </h2>
        <div class="first-body">
          <Body
            key={question}
            door={at.door}
            answers={answers}
            put={(name, change) =>
              answer(store, name, {
                ...change,
                unsure:
                  question === 'place' && change.units !== undefined
                    ? answers.unsure
                    : withDoubt(answers.unsure, doubt, false),
              })
            }
          />
        </div>
      </section>
      <aside class="first-beside">
        {!last && (
          <div class="first-thumb">
            <OwnPanel pulls={false} />
          </div>
        )}
        <Strip />
      </aside>
      <footer class="first-keys">
        <button
          type="button"
          class="act act-quiet"
          disabled={step === 0}
          onClick={() => goOn({ ...at, step: step - 1 })}
        >
          {f.back}
        </button>
        <button
          type="button"
          class="act act-quiet first-unsure"
          aria-pressed={unsure}
          title={f.unsureNow}
          onClick={() =>
            answer(store, f.set.unsure(f.what[question]), {
              unsure: withDoubt(answers.unsure, doubt, !unsure),
            })
          }
        >
          {f.unsure}
        </button>
        <button
          type="button"
          class="act first-next"
          onClick={() => (last ? finish() : goOn({ ...at, step: step + 1 }))}
        >
          {last ? f.done : f.next}
        </button>
      </footer>
    </div>
  );
}
