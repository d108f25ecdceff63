import { useEffect, useRef } from 'preact/hooks';
import { useApp } from '../../app/context';
import { projectId } from '../../projects/keeper';
import { d } from '../../text/testday';
import { addTime } from './edits';
import { changeDay, day } from './state';
import { elapsed_s, running, startWatch, stopWatch, watchText } from './stopwatch';

/** Digits that follow the clock; the clock is read, never counted. */
function Digits({ started }: { started: number | null }) {
  const box = useRef<HTMLOutputElement>(null);
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    if (started === null) {
      element.textContent = watchText(0);
      return;
    }
    let frame = 0;
    const show = () => {
      element.textContent = watchText(elapsed_s({ started }, Date.now()));
      frame = requestAnimationFrame(show);
    };
    show();
    return () => cancelAnimationFrame(frame);
  }, [started]);
  return <output ref={box} class="watch-digits" aria-live="off" />;
}

/** One key for a wet thumb: start, stop, and the time is a run. */
export function Watch({ what }: { what: 'pail' | 'front' }) {
  const { store } = useApp();
  const at = running.value;
  const here = day.value;
  const mine = at !== null && at.what === what && at.day === here?.id;
  const other = at !== null && !mine;
  return (
    <div class="watch">
      <Digits started={mine ? at.started : null} />
      <button
        type="button"
        class={`watch-key ${mine ? 'watch-stop' : ''}`}
        disabled={here === null || other}
        onClick={() => {
          if (!mine) {
            if (here !== null) startWatch({ project: projectId.peek(), day: here.id, what });
            return;
          }
          const seconds = stopWatch();
          if (seconds === null) return;
          if (what === 'pail')
            changeDay(store, d.steps.time(`${seconds} s`), (one) =>
              addTime(one, store.get().doc.project.units, seconds),
            );
          else
            changeDay(store, d.steps.front(`${seconds} s`), (one) => ({
              ...one,
              warmFront: {
                limit_s: one.warmFront?.limit_s ?? 3,
                delays_s: [...(one.warmFront?.delays_s ?? []), Math.max(0.01, seconds)],
              },
            }));
        }}
      >
        {mine ? d.pail.stop : d.pail.start}
      </button>
      <p class="hint">{mine ? d.pail.away : what === 'pail' ? d.pail.startHint : d.ways.frontHint}</p>
    </div>
  );
}
