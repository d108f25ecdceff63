import type { TestDay } from '@sunlap/project/schema/life';
import type { QuantityKind } from '@sunlap/project/units/kinds';
import { useApp } from '../../app/context';
import { Cautions } from '../../parts/Cautions';
import { QuantityInput } from '../../parts/QuantityInput';
import { d } from '../../text/testday';
import { changeDay, day } from './state';
import { Watch } from './Watch';

interface Cell {
  key: string;
  label: string;
  kind: QuantityKind;
  min: number;
  max: number;
  optional?: boolean;
}

/** Limits that stand in until the person says better; common practice. */
const LIMITS = { meter: { limit_m3: 0.0005 }, rotameter: { limit_m3s: 5e-5 }, gauges: { limit_Pa: 3500 } };

const WAYS: Record<keyof typeof LIMITS, readonly Cell[]> = {
  meter: [
    { key: 'first_m3', label: d.ways.first, kind: 'volume', min: 0, max: 1e6 },
    { key: 'last_m3', label: d.ways.last, kind: 'volume', min: 0, max: 1e6 },
    { key: 'between_s', label: d.ways.between, kind: 'time', min: 0.1, max: 86_400 },
    { key: 'limit_m3', label: d.ways.meterLimit, kind: 'volume', min: 0, max: 1, optional: true },
  ],
  rotameter: [
    { key: 'flow_m3s', label: d.ways.flow, kind: 'flow', min: 1e-6, max: 0.05 },
    { key: 'limit_m3s', label: d.ways.limit, kind: 'flow', min: 0, max: 0.01, optional: true },
  ],
  gauges: [
    { key: 'pressureIn_Pa', label: d.ways.pressureIn, kind: 'pressure', min: -1e5, max: 1e6 },
    { key: 'pressureOut_Pa', label: d.ways.pressureOut, kind: 'pressure', min: -1e5, max: 1e6 },
    { key: 'vacuumIn_Pa', label: d.ways.vacuumIn, kind: 'pressure', min: 0, max: 1e5, optional: true },
    { key: 'vacuumOut_Pa', label: d.ways.vacuumOut, kind: 'pressure', min: 0, max: 1e5, optional: true },
    { key: 'limit_Pa', label: d.ways.limit, kind: 'pressure', min: 0, max: 1e5, optional: true },
  ],
};

/** Readings of which some still lack; kept until the way is whole, since the file takes whole ways only. */
const waiting = new Map<string, Record<string, number>>();

function Way({ way }: { way: keyof typeof LIMITS }) {
  const { store } = useApp();
  const now = day.value;
  if (now === null) return null;
  const key = `${now.id}/${way}`;
  const half = { ...LIMITS[way], ...waiting.get(key), ...(now[way] as Record<string, number> | undefined) };
  const cells = WAYS[way];
  return (
    <fieldset class="way" aria-label={d.ways[way]}>
      <h3>{d.ways[way]}</h3>
      <div class="ask-two">
        {cells.map((cell) => (
          <QuantityInput
            key={cell.key}
            label={cell.label}
            kind={cell.kind}
            value={(half as Record<string, number>)[cell.key] ?? null}
            min={cell.min}
            max={cell.max}
            placeholder={d.sky.none}
            onValue={(v) => {
              const next: Record<string, number> = { ...half, [cell.key]: v };
              waiting.set(key, next);
              if (cells.every((c) => c.optional === true || next[c.key] !== undefined))
                changeDay(store, d.steps.set(d.ways[way]), (one) => ({ ...one, [way]: next }) as TestDay);
            }}
          />
        ))}
      </div>
      {now[way] !== undefined && (
        <button
          type="button"
          class="quiet"
          onClick={() => {
            waiting.delete(key);
            changeDay(store, d.steps.set(d.ways[way]), ({ [way]: _gone, ...rest }) => rest);
          }}
        >
          {d.ways.clear}
        </button>
      )}
    </fieldset>
  );
}

/** Meter, flow meter, gauges and warm front: tucked away until one has them. */
export function WaysCard() {
  const { store } = useApp();
  const front = day.value?.warmFront?.delays_s ?? [];
  return (
    <section class="card" aria-labelledby="ways-title">
      <details class="more">
        <summary>
          <h2 id="ways-title">{d.ways.title}</h2>
        </summary>
        <p class="hint">{d.ways.hint}</p>
        <Cautions hand="valve" />
        {(['meter', 'rotameter', 'gauges'] as const).map((way) => (
          <Way key={way} way={way} />
        ))}
        <fieldset class="way" aria-label={d.ways.front}>
          <h3>{d.ways.front}</h3>
          <Watch what="front" />
          <ol class="runs">
            {front.map((v, i) => (
              <li key={i}>
                <span class="run-number">{i + 1}</span>
                <span class="run-value">{v.toFixed(1)} s</span>
                <button
                  type="button"
                  class="plain"
                  aria-label={d.pail.take(i + 1)}
                  onClick={() =>
                    changeDay(store, d.steps.dropTime, ({ warmFront, ...rest }) => {
                      const delays_s = front.filter((_, k) => k !== i);
                      return warmFront === undefined || delays_s.length === 0
                        ? rest
                        : { ...rest, warmFront: { ...warmFront, delays_s } };
                    })
                  }
                >
                  ×
                </button>
              </li>
            ))}
          </ol>
        </fieldset>
      </details>
    </section>
  );
}
