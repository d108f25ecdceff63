import { doc, units } from '../../app/state';
import { withValue } from '../../edits/pointer';
import { Cautions } from '../../parts/Cautions';
import { Slider } from '../../parts/Slider';
import { say } from '../../shape/quantity';
import type { Doc } from '../../store/doc';
import { t } from '../../text/catalogue';

const setter =
  (pointer: string) =>
  (d: Doc, value: number): Doc => ({
    ...d,
    project: withValue(d.project, pointer, value),
  });

/** Valve, pump speed and dirt as rules with a mark. */
export function Controls() {
  const { loop } = doc.value.project;
  const percent = (v: number) => say(v, 'ratio', units.value).replace(/\.0 /, ' ');
  const opening = (pointer: string, label: string, value: number) => (
    <Slider
      key={pointer}
      id={pointer}
      label={label}
      value={value}
      min={0}
      max={1}
      step={0.01}
      text={percent(value)}
      low={t.loop.shut}
      high={t.loop.open}
      stepName={(v) => t.steps.set(label, percent(v))}
      set={setter(pointer)}
    />
  );
  return (
    <div class="controls">
      {loop.bypass.kind === 'none' && <p class="hint">{t.loop.noBypass}</p>}
      {loop.bypass.kind === 'threeWay' && (
        <Slider
          id="/loop/bypass/toCollector"
          label={t.loop.valve}
          value={loop.bypass.toCollector}
          min={0}
          max={1}
          step={0.01}
          text={percent(loop.bypass.toCollector)}
          low={t.loop.valvePast}
          high={t.loop.valveThrough}
          stepName={(v) => t.steps.set(t.loop.valve, percent(v))}
          set={setter('/loop/bypass/toCollector')}
        />
      )}
      {loop.bypass.kind === 'twoValves' && [
        opening(
          '/loop/bypass/toCollector/opening',
          loop.bypass.toCollector.name ?? t.loop.toCollector,
          loop.bypass.toCollector.opening,
        ),
        opening(
          '/loop/bypass/pastValve/opening',
          loop.bypass.pastValve.name ?? t.loop.pastValve,
          loop.bypass.pastValve.opening,
        ),
      ]}
      <Slider
        id="/loop/pump/speed"
        label={t.fields.speed}
        value={loop.pump.speed}
        min={0}
        max={Math.max(1, loop.pump.speed)}
        step={0.01}
        text={percent(loop.pump.speed)}
        low={t.loop.stopped}
        high={t.loop.full}
        stepName={(v) => t.steps.set(t.fields.speed, percent(v))}
        set={setter('/loop/pump/speed')}
      />
      {loop.filter !== undefined && (
        <Slider
          id="/loop/filter/dirt"
          label={t.fields.dirt}
          value={loop.filter.dirt}
          min={1}
          max={Math.max(6, loop.filter.dirt)}
          step={0.05}
          text={t.loop.dirtTimes(loop.filter.dirt.toFixed(2).replace(/\.?0+$/, ''))}
          low={t.loop.clean}
          high={t.loop.dirty}
          stepName={(v) => t.steps.set(t.fields.dirt, v.toFixed(2))}
          set={setter('/loop/filter/dirt')}
        />
      )}
      <Cautions hand="valve" short />
    </div>
  );
}
