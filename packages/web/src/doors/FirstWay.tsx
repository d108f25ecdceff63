import { type Doubt, withDoubt } from '@sunlap/project/start/answers';
import { useEffect, useRef, useState } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc, study, units } from '../app/state';
import type { HomeReadout } from '../compute/side-protocol';
import { OwnPanel } from '../home/OwnPanel';
import { useReadouts } from '../home/readouts';
import { BandBar } from '../parts/BandBar';
import { say } from '../shape/quantity';
import { f } from '../text/first';
import { answer, answersNow } from './answers';
import { Lie } from './questions/Lie';
import { Panel } from './questions/Panel';
import { Pipe } from './questions/Pipe';
import { Place } from './questions/Place';
import { Pool } from './questions/Pool';
import { Pump } from './questions/Pump';
import type { QuestionProps } from './questions/props';
import { goOn, QUESTIONS, type Question, way } from './state';

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

/** The answer that a question moves most. */
const MOVES: Partial<Record<Question, HomeReadout>> = { pool: 'poolPerSunnyDay_K', pump: 'flow_m3s' };
const KIND = { heat_W: 'heatRate', flow_m3s: 'flow', poolPerSunnyDay_K: 'temperatureDifference' } as const;

/** What the panel so far gives, with its band; the scale stays, so that a wider band is seen to be wider. */
function Strip({ question }: { question: Question }) {
  const system = units.value;
  const { readouts, fresh } = useReadouts();
  const name = MOVES[question] ?? 'heat_W';
  const live = study.value;
  const value =
    name === 'heat_W'
      ? (live?.heat?.result.heat_W ?? null)
      : name === 'flow_m3s'
        ? (live?.flow.result.collectorFlow_m3s ?? null)
        : (readouts?.poolPerSunnyDay_K.value ?? null);
  const band = readouts?.[name].band ?? null;
  const scale = useRef({ name, max: 0 });
  const high = band?.high ?? value ?? 0;
  const { max } = scale.current;
  if (scale.current.name !== name || high > max || (high > 0 && high < max / 4))
    scale.current = { name, max: high * 1.5 };
  const text = (v: number) => say(v, KIND[name], system);
  const range = band === null ? f.working : f.band(text(band.low), text(band.high));
  const south = doc.value.project.site.latitude_deg < 0;
  return (
    <section class={`strip-band ${fresh ? '' : 'title-stale'}`} aria-label={f.strip[name]} aria-busy={!fresh}>
      <p class="strip-head">
        <span>
          {f.strip[name]} {south ? f.stripWhen.south : f.stripWhen.north}
        </span>
        <strong>{value === null ? '–' : text(value)}</strong>
      </p>
      <BandBar
        low={band?.low ?? null}
        value={value}
        high={band?.high ?? null}
        max={scale.current.max || 1}
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
        <Strip question={question} />
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
