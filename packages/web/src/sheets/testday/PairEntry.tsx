import { useState } from 'preact/hooks';
import { QuantityInput } from '../../parts/QuantityInput';
import { d } from '../../text/testday';

/** Two readings taken together, added as one. */
export function PairEntry({ id, add }: { id: string; add: (inlet_C: number, outlet_C: number) => void }) {
  const [pair, setPair] = useState<{ inlet: number | null; outlet: number | null }>({
    inlet: null,
    outlet: null,
  });
  const [turn, setTurn] = useState(0);
  const whole = pair.inlet !== null && pair.outlet !== null;
  return (
    <form
      class="pair-entry"
      data-pair={id}
      onSubmit={(event) => {
        event.preventDefault();
        if (pair.inlet === null || pair.outlet === null) return;
        add(pair.inlet, pair.outlet);
        setPair({ inlet: null, outlet: null });
        setTurn(turn + 1);
      }}
    >
      <QuantityInput
        key={`in${turn}`}
        label={d.heat.inlet}
        kind="temperature"
        value={null}
        min={-20}
        max={110}
        onValue={(inlet) => setPair((p) => ({ ...p, inlet }))}
        onEmpty={() => setPair((p) => ({ ...p, inlet: null }))}
      />
      <QuantityInput
        key={`out${turn}`}
        label={d.heat.outlet}
        kind="temperature"
        value={null}
        min={-20}
        max={110}
        onValue={(outlet) => setPair((p) => ({ ...p, outlet }))}
        onEmpty={() => setPair((p) => ({ ...p, outlet: null }))}
      />
      <button type="submit" class="act pair-add" disabled={!whole}>
        {d.heat.add}
      </button>
    </form>
  );
}

interface ListProps {
  pairs: readonly (readonly [number | undefined, number | undefined])[];
  say: (value: number | undefined) => string;
  difference: (low: number, high: number) => string;
  drop: (index: number) => void;
}

export function PairList({ pairs, say, difference, drop }: ListProps) {
  return (
    <ol class="runs">
      {pairs.map(([a, b], i) => (
        <li key={i}>
          <span class="run-number">{i + 1}</span>
          <span class="run-value">{say(a)}</span>
          <span class="run-value">{say(b)}</span>
          <span class="run-aside">{a === undefined || b === undefined ? '–' : difference(a, b)}</span>
          <button type="button" class="plain" aria-label={d.heat.take(i + 1)} onClick={() => drop(i)}>
            ×
          </button>
        </li>
      ))}
    </ol>
  );
}
