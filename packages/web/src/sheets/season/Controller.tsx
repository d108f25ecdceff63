import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { QuantityInput } from '../../parts/QuantityInput';
import { say } from '../../shape/quantity';
import { s } from '../../text/season';
import { ClockInput } from './ClockInput';
import { type ControllerPlan, withController } from './run-plan';

const w = s.run;

/** What a controller is set to: differences, limit, hours, cooling by night. */
export function Controller({ plan }: { plan: ControllerPlan }) {
  const { store } = useApp();
  const u = units.value;
  const set = (change: Partial<ControllerPlan>, undo: 'commit' | 'drag' = 'drag') =>
    store.apply(w.controllerStep, {
      doc: { ...doc.value, project: withController(doc.value.project, change) },
      undo,
    });
  const done = () => store.endDrag();
  return (
    <div class="controller">
      <QuantityInput
        label={w.on}
        kind="temperatureDifference"
        value={plan.onDifference_K}
        min={0.1}
        max={30}
        hint={w.onHint}
        onValue={(onDifference_K) => set({ onDifference_K })}
        onDone={done}
      />
      <QuantityInput
        label={w.off}
        kind="temperatureDifference"
        value={plan.offDifference_K}
        min={0}
        max={30}
        hint={w.offHint}
        onValue={(offDifference_K) => set({ offDifference_K })}
        onDone={done}
      />
      <QuantityInput
        label={s.fields.limit}
        kind="temperature"
        value={plan.limit_C}
        min={0}
        max={45}
        onValue={(limit_C) => set({ limit_C })}
        onDone={done}
      />
      <QuantityInput
        label={w.again}
        kind="temperatureDifference"
        value={plan.limitHysteresis_K ?? null}
        min={0}
        max={10}
        placeholder={say(0.5, 'temperatureDifference', u)}
        onValue={(limitHysteresis_K) => set({ limitHysteresis_K })}
        onDone={done}
      />
      <span class="schedule-hours">
        <ClockInput label={w.mayFrom} value={plan.from_h} put={(from_h) => set({ from_h }, 'commit')} />
        <ClockInput label={w.mayTo} value={plan.to_h} put={(to_h) => set({ to_h }, 'commit')} />
      </span>
      <label class="hours-on">
        <input
          type="checkbox"
          checked={plan.nightCooling === true}
          onChange={(event) => set({ nightCooling: event.currentTarget.checked }, 'commit')}
        />
        {w.night}
      </label>
    </div>
  );
}
