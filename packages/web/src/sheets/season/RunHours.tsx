import { hoursPlace, seasonHours } from '@sunlap/drawing/seasonMonths';
import type { SeasonValues } from '@sunlap/workbench/season/values';
import { useRef, useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { clockText } from '../../shape/clock';
import { s } from '../../text/season';
import { y } from '../../text/yard';
import { ClockInput } from './ClockInput';
import { Controller } from './Controller';
import { planOf, withSeason } from './fields';
import { pulled, sameEverywhere, withMonth } from './run-plan';

const w = s.run;
const HEIGHT = 168;
/** So near to an end a mouse takes hold of it [px]. */
const NEAR_PX = 12;
type End = 'from_h' | 'to_h';

/** The run plan as twelve bars that are pulled or typed, the hours worth running behind them. */
export function RunHours({ r }: { r: SeasonValues }) {
  const { store } = useApp();
  const { ref, width } = useSize<HTMLDivElement>();
  const { project, moment } = doc.value;
  const u = units.value;
  const [month, setMonth] = useState(Number(moment.at.slice(5, 7)) - 1);
  const drag = useRef<{ end: End; month: number } | null>(null);
  const plan = planOf(project);
  const hands = plan.kind === 'hours';
  const drained = project.season?.drained;
  const planned = Array.from({ length: 12 }, (_, m) => {
    if (plan.kind === 'controller') return drained?.[m] ? null : plan;
    // bars that are pulled stay in reach, drained or not
    return plan.months[m].on ? plan.months[m] : null;
  });
  const paying =
    r.worth?.map((h) => (h.from_h === null || h.to_h === null ? null : { from_h: h.from_h, to_h: h.to_h })) ??
    null;
  const at = hoursPlace({ width, height: HEIGHT });
  const one = plan.kind === 'hours' ? plan.months[month] : null;
  const pull = (m: number, end: End, hour: number, undo: 'drag' | 'commit') =>
    store.apply(w.step(y.months[m]), {
      doc: { ...doc.value, project: pulled(doc.value.project, m, end, hour) },
      undo,
    });
  const change = (name: string, next: typeof project) =>
    store.apply(name, { doc: { ...doc.value, project: next }, undo: 'commit' });
  const says = planned
    .map((p, m) => {
      const pays = paying?.[m];
      const hours = (h: { from_h: number; to_h: number }) =>
        `${clockText(h.from_h, u)} ${w.until} ${clockText(h.to_h, u)}`;
      return `${y.months[m]}: ${p === null ? w.shut : hours(p)}${pays ? `, ${w.pays} ${hours(pays)}` : ''}`;
    })
    .join('; ');
  const end = () => {
    drag.current = null;
    store.endDrag();
  };
  return (
    <figure class="season-figure">
      <figcaption>{hands ? w.title : s.hoursPicture}</figcaption>
      <div
        class="hours-canvas"
        ref={ref}
        style={{ height: `${HEIGHT}px` }}
        onPointerDown={(event) => {
          if ((event.target as HTMLElement).closest('button') !== null) return;
          const box = event.currentTarget.getBoundingClientRect();
          const m = at.month(event.clientX - box.left);
          if (m < 0) return;
          setMonth(m);
          const bar = planned[m];
          if (plan.kind !== 'hours' || bar === null || event.pointerType === 'touch') return;
          const py = event.clientY - box.top;
          const [a, b] = [Math.abs(py - at.y(bar.from_h)), Math.abs(py - at.y(bar.to_h))];
          if (Math.min(a, b) > NEAR_PX) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          drag.current = { end: a < b ? 'from_h' : 'to_h', month: m };
        }}
        onPointerMove={(event) => {
          if (drag.current === null) return;
          const box = event.currentTarget.getBoundingClientRect();
          pull(drag.current.month, drag.current.end, at.hour(event.clientY - box.top), 'drag');
        }}
        onPointerUp={end}
        onPointerCancel={() => {
          drag.current = null;
          store.cancelDrag();
        }}
      >
        {width > 80 && (
          <Picture
            items={
              seasonHours(paying ?? [], planned, {
                width,
                height: HEIGHT,
                months: new Array<string>(12).fill(''),
                hourText: (h) => clockText(h, u),
              }).items
            }
            width={width}
            height={HEIGHT}
            name="season-hours"
            title={hands ? w.title : s.hoursPicture}
            says={says}
          />
        )}
        {width > 80 &&
          one?.on === true &&
          (['from_h', 'to_h'] as const).map((key) => (
            <button
              key={key}
              type="button"
              role="slider"
              class="handle hours-grip"
              data-grip={key}
              style={{ left: `${at.x(month)}px`, top: `${at.y(one[key])}px` }}
              aria-label={key === 'from_h' ? w.opens(y.months[month]) : w.closes(y.months[month])}
              aria-orientation="vertical"
              aria-valuemin={0}
              aria-valuemax={24}
              aria-valuenow={one[key]}
              aria-valuetext={clockText(one[key], u)}
              onPointerDown={(event) => {
                event.currentTarget.setPointerCapture(event.pointerId);
                drag.current = { end: key, month };
              }}
              onKeyDown={(event) => {
                const way =
                  event.key === 'ArrowUp' || event.key === 'ArrowRight'
                    ? 0.5
                    : event.key === 'ArrowDown' || event.key === 'ArrowLeft'
                      ? -0.5
                      : 0;
                if (way === 0) return;
                event.preventDefault();
                pull(month, key, one[key] + way, 'commit');
              }}
            />
          ))}
      </div>
      <fieldset
        class="hours-months"
        aria-label={w.pick}
        style={{ marginLeft: `${at.left}px`, marginRight: `${at.right}px` }}
      >
        {y.months.map((name, m) => (
          <button
            key={name}
            type="button"
            aria-pressed={m === month}
            aria-label={name}
            onClick={() => setMonth(m)}
          >
            {y.monthLetters[m]}
          </button>
        ))}
      </fieldset>
      {one !== null && (
        <div class="hours-row">
          <label class="hours-on">
            <input
              type="checkbox"
              checked={one.on}
              onChange={(event) =>
                change(
                  w.step(y.months[month]),
                  withMonth(project, month, { on: event.currentTarget.checked }),
                )
              }
            />
            {w.runsIn(y.months[month])}
          </label>
          <ClockInput
            label={w.open}
            value={one.from_h}
            disabled={!one.on}
            put={(from_h) => change(w.step(y.months[month]), withMonth(project, month, { from_h }))}
          />
          <ClockInput
            label={w.close}
            value={one.to_h}
            disabled={!one.on}
            put={(to_h) => change(w.step(y.months[month]), withMonth(project, month, { to_h }))}
          />
          <button
            type="button"
            class="act act-quiet"
            disabled={!one.on}
            onClick={() => change(w.sameStep, sameEverywhere(project, month))}
          >
            {w.same}
          </button>
        </div>
      )}
      {plan.kind === 'controller' && <Controller plan={plan} />}
      <p class="hint">{paying === null ? s.changes.waiting : s.hoursHint}</p>
      {paying !== null && plan.kind === 'hours' && (
        <button
          type="button"
          class="act act-quiet"
          onClick={() =>
            change(
              s.usedHours,
              withSeason(project, {
                run: {
                  kind: 'hours',
                  limit_C: plan.limit_C ?? 45,
                  months: paying.map((h) =>
                    h === null ? { from_h: 9, to_h: 17, on: false } : { ...h, on: true },
                  ),
                },
              }),
            )
          }
        >
          {s.useHours}
        </button>
      )}
    </figure>
  );
}
