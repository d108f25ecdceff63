import { compass } from '@sunlap/drawing/panelPlan';
import { units } from '../../app/state';
import { Cautions } from '../../parts/Cautions';
import { QuantityInput } from '../../parts/QuantityInput';
import { say } from '../../shape/quantity';
import { f } from '../../text/first';
import type { QuestionProps } from './props';

const WINDS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'] as const;

export function Lie({ answers: a, put }: QuestionProps) {
  const tilt = (a.tilt_deg * Math.PI) / 180;
  const [x, y] = [150 * Math.cos(tilt), 150 * Math.sin(tilt)];
  const here = compass(a.facing_deg);
  return (
    <>
      <div class="lie">
        <fieldset class="rose" aria-label={f.lie.facing}>
          <svg viewBox="-100 -100 200 200" aria-hidden="true" class="rose-needle">
            <circle r="58" class="rose-ring" />
            <g transform={`rotate(${a.facing_deg})`}>
              <rect x="-26" y="-12" width="52" height="24" class="rose-panel" />
              <path d="M0 -14V-46M-6 -38L0 -48L6 -38" class="rose-arrow" />
            </g>
          </svg>
          {WINDS.map((wind, i) => (
            <button
              key={wind}
              type="button"
              class={`wind wind-${i}`}
              aria-pressed={wind === here}
              aria-label={`${wind}: ${f.lie.facing} ${f.lie.winds[wind]}`}
              onClick={() => put(f.set.lie, { facing_deg: i * 45 })}
            >
              {wind}
            </button>
          ))}
        </fieldset>
        <svg class="tilt-picture" viewBox="-6 -110 190 134" aria-hidden="true">
          <path d="M0 0H180" class="curve-axis" />
          <path d={`M0 0L${x.toFixed(1)} ${(-y).toFixed(1)}`} class="tilt-panel" />
          <path
            d={`M46 0A46 46 0 0 0 ${(46 * Math.cos(tilt)).toFixed(1)} ${(-46 * Math.sin(tilt)).toFixed(1)}`}
            class="curve-slow"
          />
        </svg>
      </div>
      <div class="slider">
        <label for="lie-tilt">
          <span>{f.lie.tilt}</span> <output for="lie-tilt">{say(a.tilt_deg, 'angle', units.value)}</output>
        </label>
        <input
          id="lie-tilt"
          type="range"
          min={0}
          max={60}
          step={1}
          value={a.tilt_deg}
          aria-valuetext={say(a.tilt_deg, 'angle', units.value)}
          onChange={(event) => put(f.set.lie, { tilt_deg: Number(event.currentTarget.value) })}
        />
        <div class="slider-ends" aria-hidden="true">
          <span>{f.lie.flat}</span>
          <span>{f.lie.steep}</span>
        </div>
      </div>
      <div class="ask-fields">
        <div class="row">
          <span id="lie-on">{f.lie.on}</span>
          <fieldset class="segments" aria-labelledby="lie-on">
            {(['ground', 'rack', 'roof'] as const).map((mounting) => (
              <button
                key={mounting}
                type="button"
                aria-pressed={a.mounting === mounting}
                onClick={() => put(f.set.lie, { mounting })}
              >
                {f.lie[mounting]}
              </button>
            ))}
          </fieldset>
        </div>
        <QuantityInput
          label={f.lie.lift}
          kind="length"
          value={a.lift_m}
          min={-5}
          max={15}
          onValue={(lift_m) => put(f.set.lie, { lift_m })}
        />
      </div>
      {a.mounting === 'roof' && <Cautions hand="roof" />}
    </>
  );
}
