import { useEffect, useRef } from 'preact/hooks';
import { palette, still } from '../app/state';

export interface Stream {
  from: readonly [number, number];
  to: readonly [number, number];
  width: number;
  /** Over the mean; 0 stands still. */
  speed: number;
}

/** Sheet units per second at mean speed. */
const MEAN_SPEED = 26;
const APART = 92;
const LONG = 13;

/** Water seems to move along its tubes, each at its true speed relative to the others; still where motion is unwanted. */
export function WaterMotion({
  streams,
  width,
  height,
}: {
  streams: readonly Stream[];
  width: number;
  height: number;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const now = useRef(streams);
  now.current = streams;
  const stopped = still.value;
  const colour = palette.value.sheet;
  useEffect(() => {
    const element = canvas.current;
    const context = element?.getContext('2d');
    if (element === null || context === null || context === undefined || width === 0) return;
    const ratio = Math.min(window.devicePixelRatio, 2);
    element.width = width * ratio;
    element.height = height * ratio;
    if (stopped) return;
    let frame = 0;
    let last = 0;
    const draw = (time: number) => {
      frame = requestAnimationFrame(draw);
      if (time - last < 30) return;
      last = time;
      context.setTransform(ratio, 0, 0, ratio, 0, 0);
      context.clearRect(0, 0, width, height);
      context.strokeStyle = colour;
      context.globalAlpha = 0.5;
      context.lineCap = 'round';
      now.current.forEach((s, i) => {
        if (!(s.speed > 0)) return;
        const [dx, dy] = [s.to[0] - s.from[0], s.to[1] - s.from[1]];
        const length = Math.hypot(dx, dy);
        if (!(length > 1)) return;
        const [ux, uy] = [dx / length, dy / length];
        const start = ((time / 1000) * MEAN_SPEED * s.speed + i * 37) % APART;
        context.lineWidth = Math.max(1, s.width * 0.34);
        context.beginPath();
        for (let at = start - LONG; at < length; at += APART) {
          const [a, b] = [Math.max(0, at), Math.min(length, at + LONG)];
          if (b <= a) continue;
          context.moveTo(s.from[0] + ux * a, s.from[1] + uy * a);
          context.lineTo(s.from[0] + ux * b, s.from[1] + uy * b);
        }
        context.stroke();
      });
    };
    frame = requestAnimationFrame(draw);
    return () => cancelAnimationFrame(frame);
  }, [width, height, stopped, colour]);
  return <canvas ref={canvas} class="water-motion" style={{ width: `${width}px`, height: `${height}px` }} />;
}
