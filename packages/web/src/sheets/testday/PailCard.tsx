import { spreadChart } from '@sunlap/drawing/testDayPlots';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { units } from '../../app/state';
import { Cautions } from '../../parts/Cautions';
import { Picture } from '../../parts/Picture';
import { QuantityInput } from '../../parts/QuantityInput';
import { useSize } from '../../parts/useSize';
import { say } from '../../shape/quantity';
import { d } from '../../text/testday';
import { addTime, dropTime, PAIL_m3 } from './edits';
import { changeDay, day } from './state';
import { Watch } from './Watch';

const seconds = (v: number) => `${v.toFixed(1)} s`;

function Runs({ times, volume }: { times: readonly number[]; volume: number }) {
  const { store } = useApp();
  const { ref, width } = useSize<HTMLDivElement>();
  const mean = times.reduce((a, b) => a + b, 0) / (times.length || 1);
  const says = d.pail.spread(seconds(mean), seconds(Math.min(...times)), seconds(Math.max(...times)));
  return (
    <div ref={ref}>
      <ol class="runs">
        {times.map((time, i) => (
          <li key={i}>
            <span class="run-number">{i + 1}</span>
            <span class="run-value">{seconds(time)}</span>
            <span class="run-aside">{time > 0 ? say(volume / time, 'flow', units.value) : '–'}</span>
            <button
              type="button"
              class="plain"
              aria-label={d.pail.take(i + 1)}
              onClick={() => changeDay(store, d.steps.dropTime, (one) => dropTime(one, i))}
            >
              ×
            </button>
          </li>
        ))}
      </ol>
      {times.length > 1 && width > 60 && (
        <Picture
          items={spreadChart(times, width).items}
          width={width}
          height={30}
          name="spread"
          title={d.pail.title}
          says={says}
        />
      )}
      {times.length > 0 && <p class="hint">{times.length > 1 ? says : d.pail.alone}</p>}
    </div>
  );
}

export function PailCard() {
  const { store } = useApp();
  const [typed, setTyped] = useState<number | null>(null);
  const [turn, setTurn] = useState(0);
  const pail = day.value?.pail;
  const volume = pail?.volume_m3 ?? PAIL_m3[units.value];
  const put = (what: string, change: Partial<NonNullable<typeof pail>>) =>
    changeDay(store, d.steps.set(what), (one) =>
      one.pail === undefined ? one : { ...one, pail: { ...one.pail, ...change } },
    );
  return (
    <section class="card" aria-labelledby="pail-title">
      <div class="card-head">
        <h2 id="pail-title">{d.pail.title}</h2>
        <QuantityInput
          label={d.pail.volume}
          kind="volume"
          value={volume}
          min={0.0005}
          max={1}
          onValue={(v) =>
            put(d.pail.volume, { volume_m3: v, volumeLimit_m3: (pail?.volumeLimit_m3 ?? 0) * (v / volume) })
          }
        />
      </div>
      <Watch what="pail" />
      <Runs times={pail?.times_s ?? []} volume={volume} />
      <form
        class="typed"
        onSubmit={(event) => {
          event.preventDefault();
          if (typed === null) return;
          changeDay(store, d.steps.time(`${typed} s`), (one) => addTime(one, units.value, typed));
          setTyped(null);
          setTurn(turn + 1);
        }}
      >
        <QuantityInput
          key={turn}
          label={d.pail.typed}
          kind="time"
          value={null}
          min={0}
          max={7200}
          onValue={setTyped}
        />
        <button type="submit" class="act act-quiet" disabled={typed === null}>
          {d.pail.add}
        </button>
      </form>
      <Cautions hand="outlet" short />
      <details class="more">
        <summary>{d.pail.more}</summary>
        <div class="ask-fields">
          <QuantityInput
            label={d.pail.limit}
            kind="volume"
            value={pail?.volumeLimit_m3 ?? 0}
            min={0}
            max={0.2}
            onValue={(volumeLimit_m3) => put(d.pail.limit, { volumeLimit_m3 })}
          />
          <QuantityInput
            label={d.pail.lift}
            kind="length"
            value={pail?.outletLift_m ?? 0}
            min={-3}
            max={5}
            onValue={(outletLift_m) => put(d.pail.lift, { outletLift_m })}
          />
          <QuantityInput
            label={d.pail.share}
            kind="ratio"
            value={pail?.shareCaught ?? 1}
            min={0.01}
            max={1}
            onValue={(shareCaught) => put(d.pail.share, { shareCaught })}
          />
        </div>
      </details>
    </section>
  );
}
