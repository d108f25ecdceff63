import { carpetPlace, yearCarpet } from '@sunlap/drawing/carpet';
import { useApp } from '../../app/context';
import { dark, doc, narrow } from '../../app/state';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { y } from '../../text/yard';
import { withMoment } from './When';
import { COLUMNS, ROWS, type YardShade } from './yard-protocol';

const percent = (v: number) => `${Math.round(v * 100)} %`;

function says(what: string, year: number, months: readonly number[]): string {
  const list = months.map((v, m) => `${y.months[m]} ${percent(v)}`).join(', ');
  return y.carpetSays(what, percent(year), y.byMonth(list));
}

/** When pool and panel lie in the sun, over the year. `now` is the moment in standard time, parts of year and day. */
export function Carpets({
  shade,
  now,
  shift_h,
}: {
  shade: YardShade;
  now: { day: number; hour: number };
  shift_h: number;
}) {
  const { store } = useApp();
  const { ref, width } = useSize<HTMLDivElement>();
  const size = { width: Math.max(0, narrow.value ? width : Math.floor((width - 14) / 2)), height: 132 };
  const each = [
    { id: 'pool', name: y.pool, share: shade.poolCarpet, year: shade.year.pool, months: shade.months.pool },
    {
      id: 'panel',
      name: y.collector,
      share: shade.collectorCarpet,
      year: shade.year.collector,
      months: shade.months.collector,
    },
  ];
  return (
    <div class="yard-carpets" ref={ref}>
      {size.width > 80 &&
        each.map((c) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: a short cut; the two sliders do the same with the keyboard
          <figure
            key={c.id}
            onClick={(event) => {
              const box = event.currentTarget.querySelector('svg')!.getBoundingClientRect();
              const p = carpetPlace(size).back(event.clientX - box.left, event.clientY - box.top);
              const next = withMoment(doc.value, p.day * 364, Math.round((p.hour * 24 + shift_h) * 4) / 4);
              store.apply(y.toDay(next.moment.at.slice(0, 10)), { doc: next, undo: 'commit' });
            }}
          >
            <figcaption>{y.carpet(c.name)}</figcaption>
            <Picture
              items={
                yearCarpet(
                  { columns: COLUMNS, rows: ROWS, share: c.share, now },
                  { ...size, dark: dark.value, months: y.monthLetters, hourText: (h) => `${h}` },
                ).items
              }
              width={size.width}
              height={size.height}
              name={`carpet-${c.id}`}
              title={y.carpet(c.name)}
              says={says(c.name, c.year, c.months)}
            />
          </figure>
        ))}
      <p class="hint">{y.carpetHint}</p>
    </div>
  );
}
