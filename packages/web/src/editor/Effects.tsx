import { useEffect, useState } from 'preact/hooks';
import { useApp } from '../app/context';
import { study, units } from '../app/state';
import type { NumberField } from '../parts/field';
import { difference } from '../shape/quantity';
import { editorText } from '../text/editor';

/** Heat now if the field stood one step lower and one step higher. */
export function useEffects(make: (way: 1 | -1) => ReturnType<NumberField['set']> | null, key: string) {
  const { runner } = useApp();
  const [heat, setHeat] = useState<{ key: string; low: number | null; high: number | null }>({
    key: '',
    low: null,
    high: null,
  });
  useEffect(() => {
    let live = true;
    runner.forget('effect');
    for (const way of [-1, 1] as const) {
      const other = make(way);
      if (other === null) continue;
      runner.ask('effect', way < 0 ? 'low' : 'high', other, (result) => {
        if (!live || !('study' in result)) return;
        const value = result.study.heat?.result.heat_W ?? null;
        setHeat((old) => {
          const base = old.key === key ? old : { key, low: null, high: null };
          return way < 0 ? { ...base, low: value } : { ...base, high: value };
        });
      });
    }
    return () => {
      live = false;
    };
  }, [key]);
  return heat.key === key ? heat : { low: null, high: null };
}

/** One step down and one up, with what each does to the heat. */
export function EffectRow({
  low,
  high,
  effect,
  go,
}: {
  low: string | null;
  high: string | null;
  effect: { low: number | null; high: number | null };
  go: (way: 1 | -1) => void;
}) {
  const now = study.value?.heat?.result.heat_W;
  const text = (value: number | null) => {
    if (value === null || now === undefined) return editorText.working;
    const d = value - now;
    return Math.abs(d) < Math.abs(now) * 5e-4 ? editorText.same : difference(d, 'heatRate', units.value);
  };
  return (
    <fieldset class="effects" aria-label={editorText.effect}>
      {([-1, 1] as const).map((way) => {
        const label = way < 0 ? low : high;
        return (
          <button key={way} type="button" class="effect" disabled={label === null} onClick={() => go(way)}>
            <span class="effect-to">
              {way < 0 ? '▾ ' : '▴ '}
              {label ?? (way < 0 ? editorText.nothingSmaller : editorText.nothingLarger)}
            </span>
            {label !== null && <span class="effect-heat">{text(way < 0 ? effect.low : effect.high)}</span>}
          </button>
        );
      })}
    </fieldset>
  );
}
