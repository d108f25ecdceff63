import { useEffect, useRef } from 'preact/hooks';
import { moving, still } from '../app/state';

const TIME_MS = 220;

/** A number that counts from its old value to its new one; at once while something is dragged or motion is unwanted. */
export function Counting({ value, write }: { value: number; write: (value: number) => string }) {
  const span = useRef<HTMLSpanElement>(null);
  const shown = useRef(value);
  useEffect(() => {
    const element = span.current;
    if (element === null) return;
    const from = shown.current;
    if (still.value || moving.value || from === value || !Number.isFinite(from)) {
      shown.current = value;
      element.textContent = write(value);
      return;
    }
    let frame = 0;
    const start = performance.now();
    const tick = (now: number) => {
      const u = Math.min(1, (now - start) / TIME_MS);
      shown.current = u === 1 ? value : from + (value - from) * (1 - (1 - u) ** 3);
      element.textContent = write(shown.current);
      if (u < 1) frame = requestAnimationFrame(tick);
    };
    frame = requestAnimationFrame(tick);
    return () => cancelAnimationFrame(frame);
  }, [value, write]);
  return <span ref={span}>{write(shown.current)}</span>;
}
