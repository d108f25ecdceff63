import { USUAL_BUILD } from '@sunlap/workbench/build/options';
import { doc } from '../../app/state';
import { o } from '../../text/own';
import { HowFigure } from './HowFigure';

/** Water and air that the plan stands on, the coldest hour the climate's; each can be written over. */
export function Assumptions({ coldest_C }: { coldest_C: number }) {
  // as the plan has it where nobody says otherwise
  const water_C = Math.max(40, doc.value.project.pool.wish_C + 12);
  const fields = [
    ['water_C', o.assume.water, water_C, 0, 100],
    ['hottest_C', o.assume.hottest, USUAL_BUILD.hottest_C, -20, 60],
    ['coldest_C', o.assume.coldest, coldest_C, -60, 40],
    ['glueAir_C', o.assume.glueAir, USUAL_BUILD.glueAir_C, -20, 50],
  ] as const;
  return (
    <section class="assume" aria-labelledby="assume-title">
      <h3 id="assume-title">{o.assume.title}</h3>
      <div class="figures">
        {fields.map(([field, label, usual, min, max]) => (
          <HowFigure
            key={field}
            field={field}
            label={label}
            kind="temperature"
            usual={usual}
            min={min}
            max={max}
          />
        ))}
        <HowFigure
          field="gust_ms"
          label={o.assume.gust}
          kind="windSpeed"
          usual={USUAL_BUILD.gust_ms}
          min={0}
          max={120}
        />
      </div>
      <p class="hint">
        {o.assume.hint} {o.assume.glueHint}
      </p>
    </section>
  );
}
