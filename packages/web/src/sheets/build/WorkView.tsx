import { useApp } from '../../app/context';
import { doc } from '../../app/state';
import { CautionLines } from '../../parts/LifeCards';
import { b } from '../../text/build';
import { o } from '../../text/own';
import { isDone, setDone } from './how';
import type { Built } from './protocol';

/** Order of work: what to do, with how many, and where to stop for the night; ticked as one goes. */
export function WorkView({ built }: { built: Built }) {
  const { store } = useApp();
  const { steps, counts } = built.values;
  const { project } = doc.value;
  const done = steps.filter((step) => isDone(project, step.id)).length;
  const next = steps.find((step) => !isDone(project, step.id));
  const tick = (id: string, title: string, on: boolean): void => {
    const { doc: now } = store.get();
    store.apply(on ? o.steps.done(title) : o.steps.notDone(title), {
      doc: { ...now, project: setDone(now.project, id, on) },
      undo: 'commit',
    });
  };
  return (
    <div class="build-page work">
      <header class="build-page-head">
        <h2>{b.work.title}</h2>
        <p class="hint">{b.work.counts(counts.sawCuts, counts.gluedJoints)}</p>
        <p class="shop-progress" aria-live="polite">
          <progress value={done} max={steps.length} aria-label={o.work.progress(done, steps.length)} />
          {o.work.progress(done, steps.length)}
        </p>
      </header>
      <ol class="work-steps">
        {steps.map((step, i) => (
          <li key={step.id} class={`work-step ${isDone(project, step.id) ? 'work-done' : ''}`}>
            <label class="work-tick">
              <input
                type="checkbox"
                checked={isDone(project, step.id)}
                aria-label={o.work.tick(i + 1, step.title)}
                onChange={() => tick(step.id, step.title, !isDone(project, step.id))}
              />
              <span class="work-number" aria-hidden="true">
                {isDone(project, step.id) ? '✓' : i + 1}
              </span>
            </label>
            <div>
              <h3>
                {step.title}
                {step === next && done > 0 && <span class="work-tag">{o.work.next}</span>}
                {step.people === 2 && <span class="work-tag">{b.work.two}</span>}
              </h3>
              <ul>
                {step.lines.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
              <CautionLines ids={step.cautions} />
              {step.night && (
                <p class="work-night">
                  <span aria-hidden="true">☾ </span>
                  {b.work.night}
                </p>
              )}
            </div>
          </li>
        ))}
      </ol>
    </div>
  );
}
