import { useRef } from 'preact/hooks';

interface Props {
  label: string;
  at: { x: number; y: number };
  /** True when it is pulled left and right. */
  across: boolean;
  value: number;
  min: number;
  max: number;
  text: string;
  /** Value per pixel towards larger values. */
  perPixel: number;
  pull: (value: number) => void;
  step: (way: 1 | -1) => void;
  letGo: () => void;
  cancel: () => void;
}

/** A diamond to be pulled: by finger, mouse or arrow keys. */
export function PullHandle(props: Props) {
  const { label, at, across, value, min, max, text } = props;
  const start = useRef<{ at: number; value: number; perPixel: number } | null>(null);
  return (
    <button
      type="button"
      class={`handle pull ${across ? 'handle-x' : 'handle-y'}`}
      role="slider"
      aria-label={label}
      aria-valuenow={Number(value.toFixed(3))}
      aria-valuemin={min}
      aria-valuemax={max}
      aria-valuetext={text}
      aria-orientation={across ? 'horizontal' : 'vertical'}
      style={{ left: `${at.x}px`, top: `${at.y}px` }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        start.current = { at: across ? event.clientX : -event.clientY, value, perPixel: props.perPixel };
      }}
      onPointerMove={(event) => {
        const s = start.current;
        if (s === null) return;
        const now = across ? event.clientX : -event.clientY;
        props.pull(s.value + (now - s.at) * s.perPixel);
      }}
      onPointerUp={() => {
        start.current = null;
        props.letGo();
      }}
      onPointerCancel={() => {
        start.current = null;
        props.cancel();
      }}
      onKeyDown={(event) => {
        const up = event.key === 'ArrowRight' || event.key === 'ArrowUp';
        const down = event.key === 'ArrowLeft' || event.key === 'ArrowDown';
        if (event.key === 'Escape') props.cancel();
        if (!up && !down) return;
        event.preventDefault();
        props.step(up ? 1 : -1);
      }}
    />
  );
}
