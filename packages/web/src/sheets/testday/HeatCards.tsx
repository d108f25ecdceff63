import type { TestDay } from '@sunlap/project/schema/life';
import { useApp } from '../../app/context';
import { units } from '../../app/state';
import { QuantityInput } from '../../parts/QuantityInput';
import { difference, say } from '../../shape/quantity';
import { d } from '../../text/testday';
import { addPair, addSamePail, dropPair, dropSamePail } from './edits';
import { PairEntry, PairList } from './PairEntry';
import { changeDay, day } from './state';

const WHERE = {
  inlet: ['skimmer', 'poolBulk', 'collectorInlet', 'poolReturn', 'pipeWall', 'elsewhere'],
  outlet: ['pail', 'poolReturn', 'collectorOutlet', 'pipeWall', 'elsewhere'],
} as const;

const text = (v: number | undefined) => say(v, 'temperature', units.value);
const rise = (a: number, b: number) => difference(b - a, 'temperature', units.value);

function Side({ side }: { side: 'inlet' | 'outlet' }) {
  const { store } = useApp();
  const now = day.value?.[side];
  if (now === undefined) return null;
  const put = (what: string, change: object) =>
    changeDay(
      store,
      d.steps.set(what),
      (one) => ({ ...one, [side]: { ...one[side], ...change } }) as TestDay,
    );
  const set = (key: 'limit_K' | 'resolution_K', value: number, what: string) =>
    put(what, { thermometer: { ...now.thermometer, [key]: value } });
  return (
    <fieldset class="thermometer" aria-label={d.heat[side]}>
      <h3>{d.heat[side]}</h3>
      <label class="row">
        <span>{d.heat.where}</span>
        <select
          value={now.where}
          onChange={(event) => put(d.heat.where, { where: event.currentTarget.value })}
        >
          {WHERE[side].map((where) => (
            <option key={where} value={where}>
              {d.heat.places[where]}
            </option>
          ))}
        </select>
      </label>
      <QuantityInput
        label={d.heat.limit}
        kind="temperatureDifference"
        value={now.thermometer.limit_K}
        min={0}
        max={10}
        onValue={(v) => set('limit_K', v, d.heat.limit)}
      />
      <QuantityInput
        label={d.heat.digit}
        kind="temperatureDifference"
        value={now.thermometer.resolution_K}
        min={0.001}
        max={5}
        onValue={(v) => set('resolution_K', v, d.heat.digit)}
      />
    </fieldset>
  );
}

/** Pool and return, read at once, as often as one likes. */
export function HeatCard() {
  const { store } = useApp();
  const now = day.value;
  const ins = now?.inlet?.readings ?? [];
  const outs = now?.outlet?.readings ?? [];
  const pairs = Array.from(
    { length: Math.max(ins.length, outs.length) },
    (_, i) => [ins[i]?.value_C, outs[i]?.value_C] as const,
  );
  return (
    <section class="card" aria-labelledby="heat-title">
      <h2 id="heat-title">{d.heat.title}</h2>
      <PairList
        pairs={pairs}
        say={text}
        difference={rise}
        drop={(i) => changeDay(store, d.steps.dropPair, (one) => dropPair(one, i))}
      />
      <PairEntry id="loop" add={(a, b) => changeDay(store, d.steps.pair, (one) => addPair(one, a, b))} />
      <details class="more">
        <summary>
          {d.heat.more}
          {now?.inlet !== undefined && now.outlet !== undefined && (
            <span class="more-now">
              {d.heat.places[now.inlet.where]}, {d.heat.places[now.outlet.where]}
            </span>
          )}
        </summary>
        <div class="ask-two">
          <Side side="inlet" />
          <Side side="outlet" />
        </div>
      </details>
    </section>
  );
}

/** Both thermometers in one pail: what they differ by is known afterwards. */
export function SamePailCard() {
  const { store } = useApp();
  const pairs = day.value?.samePail ?? [];
  const off = pairs.reduce((sum, [a, b]) => sum + b - a, 0) / (pairs.length || 1);
  return (
    <section class="card" aria-labelledby="same-title">
      <details class="more" open={pairs.length > 0}>
        <summary>
          <h2 id="same-title">{d.same.title}</h2>
          {pairs.length > 0 && (
            <span class="more-now">{d.same.off(difference(off, 'temperature', units.value))}</span>
          )}
        </summary>
        <p class="hint">{d.same.hint}</p>
        <PairList
          pairs={pairs}
          say={text}
          difference={rise}
          drop={(i) => changeDay(store, d.steps.dropPair, (one) => dropSamePail(one, i))}
        />
        <PairEntry
          id="same"
          add={(a, b) => changeDay(store, d.steps.set(d.same.title), (one) => addSamePail(one, a, b))}
        />
      </details>
    </section>
  );
}
