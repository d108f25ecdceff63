import { sunPlace } from '@sunlap/engine/sun/position';
import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import { STANDARD_TABLES } from '@sunlap/workbench/assembly/standard-tables';
import { utcOf } from '@sunlap/workbench/heat/local-time';
import { standardOffset_h } from '@sunlap/workbench/season/site-weather';
import { yardScene } from '@sunlap/workbench/yard/scene';
import { useMemo } from 'preact/hooks';
import { registerFields } from '../../app/fields';
import { doc, narrow, notices, units } from '../../app/state';
import { Editor } from '../../parts/Editor';
import { Notes } from '../../parts/Notes';
import { TitleBlock } from '../../parts/TitleBlock';
import { Why } from '../../parts/Why';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { inputsText } from '../../text/inputs';
import { y } from '../../text/yard';
import { Carpets } from './Carpets';
import { thingName, yardFields } from './fields';
import { COLLECTOR, obstacleOf, POOL, thingFrame } from './place';
import { RouteBar } from './Routes';
import { yardReadouts, yardWhy } from './readouts';
import { Seen } from './Seen';
import { sharesAt, useShade } from './shade';
import { picked } from './state';
import { ThingBar, Things } from './ThingBar';
import { partsOf, When } from './When';
import { YardDrawing } from './YardDrawing';

const percent = (v: number) => `${Math.round(v * 100)} %`;

export default function YardSheet() {
  const { project, moment } = doc.value;
  const u = units.value;
  const scene = useMemo(
    () => yardScene(project, STANDARD_TABLES),
    [project.pool, project.collector, project.yard],
  );
  const panel = useMemo(() => outlineOf(scene.parts), [scene]);
  const known = picked.value === POOL || picked.value === COLLECTOR || picked.value === null;
  if (!known && obstacleOf(project, picked.value!) === undefined) picked.value = POOL;
  const fields = yardFields(project, picked.value, panel, u);
  registerFields(fields);
  const { shade, fresh, error } = useShade(project);
  const { site } = project;
  const utc = utcOf(moment.at, site.timeZone);
  const place = sunPlace(utc, site);
  const sun = { azimuth_deg: place.azimuth_deg, elevation_deg: 90 - place.zenith_deg };
  const { day, hour } = partsOf(moment.at);
  const month = Number(moment.at.slice(5, 7)) - 1;
  const standard_h = (((utc / 3_600_000 + standardOffset_h(site.timeZone)) % 24) + 24) % 24;
  const now = shade === null ? null : sharesAt(shade, month, sun);
  const up = sun.elevation_deg > 0;
  const sunSays = up
    ? y.saysSun(say(sun.azimuth_deg, 'bearing', u), say(sun.elevation_deg, 'angle', u))
    : y.night;
  const things = (project.yard?.obstacles ?? []).map((o) => {
    const f = thingFrame(project, o.id, panel)!;
    const far = Math.hypot(f.x_m, f.y_m);
    const bearing = (Math.atan2(f.x_m, f.y_m) * (180 / Math.PI) + 360) % 360;
    return y.saysThing(thingName(project, o.id), `${say(far, 'length', u)}, ${say(bearing, 'bearing', u)}`);
  });
  const readouts = yardReadouts(shade, now, sun.elevation_deg, day / 365, u);
  const all = notices.value;
  const mine = all.filter((n) => /^\/(yard|site|pool\/(outline|screen))/.test(n.path));
  return (
    <>
      <section class="drawing yard-drawing" aria-label={y.picture}>
        <Things fields={fields} />
        <YardDrawing
          scene={scene}
          panel={panel}
          fields={fields}
          sun={up ? sun : null}
          month={month}
          says={y.says(
            sunSays,
            things.length === 0 ? y.saysNothing : `${things.join('; ')}.`,
            now === null ? '–' : percent(now.pool),
            now === null ? '–' : percent(now.collector),
          )}
        />
        {narrow.value && <When />}
        <div class="yard-bars">
          <ThingBar fields={fields} elevation_deg={sun.elevation_deg} />
          <RouteBar panel={panel} />
        </div>
      </section>
      <section class="yard-side" aria-busy={!fresh}>
        {!narrow.value && <When />}
        {error !== null && (
          <p role="alert">
            {y.failed}: {error}
          </p>
        )}
        {shade === null ? (
          <p class="hint">{y.working}</p>
        ) : (
          <>
            <Carpets
              shade={shade}
              now={{ day: day / 365, hour: standard_h / 24 }}
              shift_h={Math.round((hour - standard_h + 36) % 24) - 12}
            />
            <Seen shade={shade} month={month} />
          </>
        )}
      </section>
      {mine.length > 0 || !narrow.value ? <Notes notices={mine} fieldFor={() => null} /> : null}
      <TitleBlock number={1} name={t.sheets.yard} scale={site.place} readouts={readouts} converged />
      <Editor fields={fields} />
      <Why
        readouts={readouts}
        notices={all}
        text={(id) =>
          yardWhy(id, [
            [inputsText.sunHeight, say(sun.elevation_deg, 'angle', u)],
            [y.things, String(things.length)],
          ])
        }
      />
    </>
  );
}

/** Corners of the whole panel seen from above: of its one part, else of the box round all in the first one's direction. */
function outlineOf(parts: ReturnType<typeof yardScene>['parts']): PlanPoint[] {
  const first = parts[0]?.corners.map(([x, z]): PlanPoint => [x, z]) ?? [];
  if (parts.length < 2) return first;
  const [a, b] = first;
  const angle = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const points = parts.flatMap((p) => p.corners);
  const us = points.map(([x, z]) => x * c + z * s);
  const vs = points.map(([x, z]) => -x * s + z * c);
  const [u0, u1, v0, v1] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];
  return [
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ].map(([p, q]): PlanPoint => [p * c - q * s, p * s + q * c]);
}
