import { doc, focus, study, trueScale, tubeOpen, tubesShow, units } from '../../app/state';
import { heatScale } from '../../shape/panelInput';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';

function AirKey() {
  const tubes = study.value?.flow.result.collector.banks.flatMap((b) => b.tubes) ?? [];
  if (!tubes.some((x) => x.air === 'holds' || x.state !== 'full')) return null;
  return (
    <span class="air-key">
      <svg width="10" height="10" viewBox="0 0 10 10" aria-hidden="true">
        <circle cx="5" cy="5" r="3.4" fill="none" stroke="currentColor" />
      </svg>
      {t.tube.air.holds}
    </span>
  );
}

function HeatKey() {
  const scale = heatScale(study.value);
  if (study.value?.heat === null || study.value === null) return null;
  const say1 = (v: number) => say(v, 'temperature', units.value);
  return (
    <div class="heat-key">
      <span>{say1(scale.low_C)}</span>
      <span class="heat-ramp" aria-hidden="true" />
      <span>{say1(scale.high_C)}</span>
    </div>
  );
}

/** What the drawing shows: heat or share, which section, at which scale. */
export function PanelViews({ only }: { only: string | null }) {
  const { collector } = doc.value.project;
  return (
    <div class="drawing-top">
      <fieldset class="segments" aria-label={t.views.colourBy}>
        {(['heat', 'share'] as const).map((mode) => (
          <button
            key={mode}
            type="button"
            aria-pressed={tubesShow.value === mode}
            onClick={() => {
              tubesShow.value = mode;
            }}
          >
            {t.views[mode]}
          </button>
        ))}
      </fieldset>
      {collector.sections.length > 1 && (
        <fieldset class="segments" aria-label={t.views.part}>
          <button type="button" aria-pressed={only === null} onClick={() => (focus.value = null)}>
            {t.views.all}
          </button>
          {collector.sections.map((s) => (
            <button
              key={s.id}
              type="button"
              aria-pressed={only === s.id}
              aria-label={s.name ?? s.id}
              onClick={() => (focus.value = s.id)}
            >
              {s.id}
            </button>
          ))}
        </fieldset>
      )}
      <label class="tick" title={t.views.trueScaleHint}>
        <input
          type="checkbox"
          checked={trueScale.value}
          onChange={(event) => {
            trueScale.value = event.currentTarget.checked;
          }}
        />
        {t.views.trueScale}
      </label>
      <button
        type="button"
        class="quiet"
        onClick={() => {
          const section = collector.sections.find((s) => s.id === only) ?? collector.sections[0];
          tubeOpen.value = { section: section.id, bank: section.banks[0].id, position: 1 };
        }}
      >
        {t.tube.choose}
      </button>
      <AirKey />
      {tubesShow.value === 'heat' && <HeatKey />}
    </div>
  );
}
