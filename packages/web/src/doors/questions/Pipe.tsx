import { findPipe } from '@sunlap/data/pipes';
import { units } from '../../app/state';
import { familiesOf, headerFor, PIPES, pipeName, pipeOf } from '../../shape/pipes';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { f } from '../../text/first';
import { pitchFor } from '../pitch';
import type { QuestionProps } from './props';

/** Pixels per metre of pipe: all to one scale. */
const SCALE = 1150;

function Row({
  label,
  value,
  least_m,
  most_m,
  set,
}: {
  label: string;
  value: string;
  least_m: number;
  most_m: number;
  set: (pipe: string) => void;
}) {
  const family = pipeOf(value)?.family ?? PIPES[0].family;
  const sizes = PIPES.filter((p) => p.family === family && p.outer_m >= least_m && p.outer_m <= most_m);
  return (
    <div class="pipe-row">
      <h3>{label}</h3>
      <fieldset class="pipe-sizes" aria-label={label}>
        {sizes.map((p) => {
          const row = findPipe(p.id);
          const outer = p.outer_m * SCALE;
          const bore = (row?.bore_m ?? p.outer_m * 0.85) * SCALE;
          const size = Math.max(outer + 4, 24);
          return (
            <button
              key={p.id}
              type="button"
              class="pipe-size"
              aria-pressed={p.id === value}
              aria-label={`${p.name}, ${f.pipe.measured} ${say(p.outer_m, 'diameter', units.value)}`}
              onClick={() => set(p.id)}
            >
              <svg
                width={size}
                height={size}
                viewBox={`${-size / 2} ${-size / 2} ${size} ${size}`}
                aria-hidden="true"
              >
                <circle r={(outer + bore) / 4} class="pipe-wall" stroke-width={(outer - bore) / 2 + 1} />
              </svg>
              <span>
                <strong>{p.name.split(' · ')[0]}</strong>
                <span>({say(p.outer_m, 'diameter', units.value)})</span>
              </span>
            </button>
          );
        })}
      </fieldset>
      <label class="family">
        <span>{t.fields.family}</span>
        <select
          value={family}
          onChange={(event) => {
            const wanted = event.currentTarget.value;
            const now = pipeOf(value)?.outer_m ?? 0.03;
            const near = PIPES.filter((p) => p.family === wanted).sort(
              (a, b) => Math.abs(a.outer_m - now) - Math.abs(b.outer_m - now),
            )[0];
            if (near !== undefined) set(near.id);
          }}
        >
          {familiesOf().map((x) => (
            <option key={x.id} value={x.id}>
              {x.label}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}

export function Pipe({ answers, put }: QuestionProps) {
  return (
    <>
      <Row
        label={f.pipe.tube}
        value={answers.tubePipe}
        least_m={0.012}
        most_m={0.043}
        set={(tubePipe) =>
          put(f.set.pipe(pipeName(tubePipe)), {
            tubePipe,
            pitch_m: pitchFor(answers.headerPipe, tubePipe, units.value),
          })
        }
      />
      <Row
        label={f.pipe.loop}
        value={answers.loopPipe}
        least_m={0.026}
        most_m={0.0765}
        set={(loopPipe) => {
          const headerPipe = headerFor(loopPipe);
          const pitch_m = pitchFor(headerPipe, answers.tubePipe, units.value);
          put(f.set.pipe(pipeName(loopPipe)), { loopPipe, headerPipe, pitch_m });
        }}
      />
      <p class="hint">{f.pipe.hint}</p>
    </>
  );
}
