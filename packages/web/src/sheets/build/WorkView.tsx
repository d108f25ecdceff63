import { b } from '../../text/build';
import { CautionLines } from './CautionLines';
import type { Built } from './protocol';

/** Order of work: what to do, with how many, and where to stop for the night. */
export function WorkView({ built }: { built: Built }) {
  const { steps, counts } = built.values;
  return (
    <div class="build-page work">
      <header class="build-page-head">
        <h2>{b.work.title}</h2>
        <p class="hint">{b.work.counts(counts.sawCuts, counts.gluedJoints)}</p>
      </header>
      <ol class="work-steps">
        {steps.map((step, i) => (
          <li key={step.id} class="work-step">
            <span class="work-number" aria-hidden="true">
              {i + 1}
            </span>
            <div>
              <h3>
                {step.title}
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
