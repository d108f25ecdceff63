import { findPump, type PumpOnShelf, pumps } from '@sunlap/data/pumps';
import { units } from '../../app/state';
import { f } from '../../text/first';
import type { QuestionProps } from './props';

const KINDS = ['single', 'twoSpeed', 'variable'] as const;

const W = 108;
const H = 62;
const most = {
  flow: Math.max(...pumps.map((p) => p.mostFlow_m3s)),
  head: Math.max(...pumps.map((p) => p.shutOffHead_m)),
};

/** Head against flow, all pumps of the shelf to one scale; slower speeds as finer lines. */
function Curve({ pump }: { pump: PumpOnShelf }) {
  const path = (speed: number) =>
    Array.from({ length: 13 }, (_, i) => {
      const flow = (pump.mostFlow_m3s * speed * i) / 12;
      const head = pump.shutOffHead_m * speed ** 2 - pump.coefficient_s2m5 * flow ** 2;
      return `${(4 + (flow / most.flow) * (W - 8)).toFixed(1)} ${(H - 4 - (Math.max(0, head) / most.head) * (H - 8)).toFixed(1)}`;
    }).join(' L');
  return (
    <svg width={W} height={H} viewBox={`0 0 ${W} ${H}`} aria-hidden="true" class="pump-curve">
      <path d={`M4 4V${H - 4}H${W - 4}`} class="curve-axis" />
      {pump.speeds.map((s) => (
        <path key={s} d={`M${path(s)}`} class={s === 1 ? 'curve-full' : 'curve-slow'} />
      ))}
    </svg>
  );
}

/** The size as its plate says it, in the units that the person reads first. */
function plate(pump: PumpOnShelf): { big: string; small: string } {
  const found = /,\s*(.*?)\s*\((.*?)\)/.exec(pump.label);
  const [hp, kW] = [found?.[1] ?? pump.label, found?.[2] ?? ''];
  return units.value === 'us' ? { big: hp, small: kW } : { big: kW, small: hp };
}

export function Pump({ answers, put }: QuestionProps) {
  const chosen = findPump(answers.pumpShelf);
  const kind = chosen?.kind ?? 'single';
  const row = pumps.filter((p) => p.kind === kind);
  const choose = (pump: PumpOnShelf) => put(f.set.pump(pump.label), { pumpShelf: pump.id });
  return (
    <>
      <fieldset class="segments ask-segments" aria-label={f.pump.kind}>
        {KINDS.map((k) => (
          <button
            key={k}
            type="button"
            aria-pressed={k === kind}
            onClick={() => {
              const same = pumps.filter((p) => p.kind === k);
              const near = same.reduce((a, b) =>
                Math.abs(b.rated_W - (chosen?.rated_W ?? 750)) <
                Math.abs(a.rated_W - (chosen?.rated_W ?? 750))
                  ? b
                  : a,
              );
              choose(near);
            }}
          >
            {f.pump[k]}
          </button>
        ))}
      </fieldset>
      <fieldset class="shelf" aria-label={f.pump.size}>
        {row.map((pump) => {
          const { big, small } = plate(pump);
          return (
            <button
              key={pump.id}
              type="button"
              class="shelf-item"
              aria-pressed={pump.id === answers.pumpShelf}
              onClick={() => choose(pump)}
            >
              <Curve pump={pump} />
              <span class="shelf-name">
                <strong>{big}</strong> <span>{small}</span>
              </span>
            </button>
          );
        })}
      </fieldset>
      <p class="hint">{f.pump.hint}</p>
    </>
  );
}
