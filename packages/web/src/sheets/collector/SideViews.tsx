import { compassRose } from '@sunlap/drawing/compassRose';
import { compass } from '@sunlap/drawing/panelPlan';
import { sideView } from '@sunlap/drawing/sideView';
import { doc, narrow, study, units } from '../../app/state';
import { sectionSize } from '../../edits/extent';
import { Chip } from '../../parts/Chip';
import type { Field } from '../../parts/field';
import { Picture } from '../../parts/Picture';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { loopText } from '../../text/loop';

const SIDE = { width: 236, height: 128 };
const SMALL = { width: 208, height: 124 };

/** Height of the sun seen from the panel's side, measured from the horizontal towards where the panel looks. */
function sunFromSide(elevation_deg: number, azimuth_deg: number, facing_deg: number): number | null {
  if (!(elevation_deg > 0)) return null;
  const rad = Math.PI / 180;
  const up = Math.sin(elevation_deg * rad);
  const out = Math.cos(elevation_deg * rad) * Math.cos((azimuth_deg - facing_deg) * rad);
  return Math.atan2(up, out) / rad;
}

/** Side elevation and compass with their controls. */
export function SideViews({ fields }: { fields: readonly Field[] }) {
  const { collector } = doc.value.project;
  const p = collector.placement;
  const sun = study.value?.heat?.result.moment.sun;
  const reach = Math.max(
    ...collector.sections.map((s) => {
      const size = sectionSize(s);
      return s.v_m + (s.direction === 'slope' ? size.along_m : size.across_m);
    }),
  );
  const view = sideView(
    {
      tilt_deg: p.tilt_deg,
      reach_m: Math.min(Math.max(reach, 0.5), 12),
      lowestHeight_m: p.lowestHeight_m,
      mounting: p.mounting,
      sun_deg: sun === undefined ? null : sunFromSide(sun.elevation_deg, sun.azimuth_deg, p.facing_deg),
    },
    { ...(narrow.value ? SMALL : SIDE), words: { water: loopText.pool } },
  );
  const rose = compassRose(
    {
      facing_deg: p.facing_deg,
      sunAzimuth_deg: sun !== undefined && sun.elevation_deg > 0 ? sun.azimuth_deg : null,
    },
    narrow.value ? 120 : 132,
  );
  const u = units.value;
  const field = (id: string) => fields.find((f) => f.id === id);
  const at = (id: string) => view.anchors.find((a) => a.id === id);
  return (
    <section class="side-views">
      <div class="side-view">
        <Picture
          items={view.items}
          width={view.width}
          height={view.height}
          name="side"
          title={t.picture.side}
          says={t.says.side(
            say(p.tilt_deg, 'angle', u),
            say(p.lowestHeight_m, 'length', u),
            t.options[p.mounting],
          )}
        />
        <Chip field={field('tilt')} at={at('tilt')} hold="left" />
      </div>
      <div class="side-chips">
        <Chip field={field('lowestHeight')} word={t.chip.lowest} />
        <Chip field={field('fall')} word={t.chip.fall} />
        <Chip field={field('spacing')} word={t.chip.supports} />
        <Chip field={field('mounting')} word={t.chip.stands} />
        <Chip field={field('backing')} word={t.chip.backing} />
        <Chip field={field('colour')} />
      </div>
      <div class="compass">
        <Picture
          items={rose.items}
          width={rose.width}
          height={rose.height}
          name="compass"
          title={t.picture.compass}
          says={
            t.says.looks(compass(p.facing_deg), say(p.facing_deg, 'bearing', u)) +
            (sun !== undefined && sun.elevation_deg > 0
              ? t.says.sun(say(sun.azimuth_deg, 'bearing', u), say(sun.elevation_deg, 'angle', u))
              : '')
          }
        />
        <Chip field={field('facing')} />
      </div>
    </section>
  );
}
