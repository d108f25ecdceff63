import { doc, units } from '../../app/state';
import { withValue } from '../../edits/pointer';
import { Cautions } from '../../parts/Cautions';
import { Slider } from '../../parts/Slider';
import { say } from '../../shape/quantity';
import type { Doc } from '../../store/doc';
import { t } from '../../text/catalogue';
import { loopText } from '../../text/loop';

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
      low={loopText.shut}
      high={loopText.open}
      stepName={(v) => t.steps.set(label, percent(v))}
      set={setter(pointer)}
    />
  );
  return (
    <div class="controls">
      {loop.bypass.kind === 'none' && <p class="hint">{loopText.noBypass}</p>}
      {loop.bypass.kind === 'threeWay' && (
        <Slider
          id="/loop/bypass/toCollector"
          label={loopText.valve}
          value={loop.bypass.toCollector}
          min={0}
          max={1}
          step={0.01}
          text={percent(loop.bypass.toCollector)}
          low={loopText.valvePast}
          high={loopText.valveThrough}
          stepName={(v) => t.steps.set(loopText.valve, percent(v))}
          set={setter('/loop/bypass/toCollector')}
        />
      )}
      {loop.bypass.kind === 'twoValves' && [
        opening(
          '/loop/bypass/toCollector/opening',
          loop.bypass.toCollector.name ?? loopText.toCollector,
          loop.bypass.toCollector.opening,
        ),
        opening(
          '/loop/bypass/pastValve/opening',
          loop.bypass.pastValve.name ?? loopText.pastValve,
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
        low={loopText.stopped}
        high={loopText.full}
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
          text={loopText.dirtTimes(loop.filter.dirt.toFixed(2).replace(/\.?0+$/, ''))}
          low={loopText.clean}
          high={loopText.dirty}
          stepName={(v) => t.steps.set(t.fields.dirt, v.toFixed(2))}
          set={setter('/loop/filter/dirt')}
        />
      )}
      <Cautions hand="valve" short />
    </div>
  );
}
