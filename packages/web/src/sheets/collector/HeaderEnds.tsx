import { compass } from '@sunlap/drawing/panelPlan';
import type { PanelSheet } from '@sunlap/drawing/panelSheet';
import { useApp } from '../../app/context';
import { doc } from '../../app/state';
import { toggleEnd } from '../../edits/tubes';
import { t } from '../../text/catalogue';

/** Compass name of a direction on the sheet: up is up the slope. */
function windOf(outward: readonly [number, number], facing_deg: number): string {
  const clockwise = (Math.atan2(outward[0], -outward[1]) * 180) / Math.PI;
  return compass(facing_deg + 180 + clockwise);
}

/** Ends of the headers: touch one to let water in or out there, or to cap it. */
export function HeaderEnds({ sheet, all, small }: { sheet: PanelSheet; all: boolean; small: boolean }) {
  const { store } = useApp();
  const { collector } = doc.value.project;
  return (
    <>
      {sheet.ends.map((e) => {
        const section = collector.sections.find((s) => s.id === e.section);
        if (section === undefined) return null;
        const n = section.banks.findIndex((b) => b.id === e.bank);
        const outer =
          (n === 0 && e.header === 'supply') || (n === section.banks.length - 1 && e.header === 'gather');
        if (!all && !(outer && e.open)) return null;
        const crowded = sheet.ends.some(
          (o) => o !== e && o.section === e.section && Math.hypot(o.at[0] - e.at[0], o.at[1] - e.at[1]) < 40,
        );
        // two ends that meet stand beside their own headers, so that neither hides the other
        const away = all && crowded ? (small ? 25 : 23) : 0;
        const along = away === 0 ? 15 : small ? -16 : -11;
        const x = e.at[0] + e.aside[0] * away + e.outward[0] * along;
        const y = e.at[1] + e.aside[1] * away + e.outward[1] * along;
        const wind = windOf(e.outward, collector.placement.facing_deg);
        const into = e.header === 'supply';
        const angle = (Math.atan2(e.outward[1], e.outward[0]) * 180) / Math.PI + (into ? 180 : 0);
        const name = `${t.ends.name(e.bank, e.header, wind)}: ${e.open ? t.ends.open : t.ends.capped}`;
        return (
          <button
            key={`${e.section}/${e.bank}/${e.header}/${e.end}`}
            type="button"
            class={`end ${e.open ? 'end-open' : 'end-capped'}`}
            data-end={`${e.bank}/${e.header}/${e.end}`}
            aria-pressed={e.open}
            aria-label={name}
            title={name}
            style={{ left: `${x}px`, top: `${y}px` }}
            onClick={() =>
              store.apply(t.steps.end(e.bank, wind, !e.open), {
                doc: {
                  ...doc.value,
                  project: {
                    ...doc.value.project,
                    collector: toggleEnd(collector, e.section, e.bank, e.header, e.end),
                  },
                },
                undo: 'commit',
              })
            }
          >
            <svg width="18" height="18" viewBox="-9 -9 18 18" aria-hidden="true">
              {e.open ? (
                <path
                  d="M-4.5 0H4M1-3.4 4.4 0 1 3.4"
                  transform={`rotate(${angle})`}
                  fill="none"
                  stroke="currentColor"
                  stroke-width="1.8"
                />
              ) : (
                <path
                  d="M-4 0H3M3-4V4"
                  transform={`rotate(${(Math.atan2(e.outward[1], e.outward[0]) * 180) / Math.PI})`}
                  fill="none"
                  stroke="currentColor"
                  stroke-width="1.8"
                />
              )}
            </svg>
          </button>
        );
      })}
    </>
  );
}
