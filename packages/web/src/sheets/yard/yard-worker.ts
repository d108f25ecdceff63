import { sunPlace } from '@sunlap/engine/sun/position';
import { shadeGrid } from '@sunlap/engine/sun/shade-grid';
import { type ShadeTable, sunlitShare } from '@sunlap/engine/sun/shade-table';
import { STANDARD_TABLES } from '@sunlap/workbench/assembly/standard-tables';
import { standardOffset_h } from '@sunlap/workbench/season/site-weather';
import { shadeTables, yardScene } from '@sunlap/workbench/yard/scene';
import { COLUMNS, ROWS, type YardAsk, type YardReply, type YardShade } from './yard-protocol';

const HOUR_MS = 3_600_000;
const known = new Map<string, ShadeTable>();
let suns: { key: string; azimuth: Float32Array; elevation: Float32Array; month: Uint8Array } | null = null;

/** The sun in the middle of every cell of the carpet. */
function sunsOf(site: YardAsk['project']['site']) {
  const key = JSON.stringify([site.latitude_deg, site.longitude_deg, site.elevation_m, site.timeZone]);
  if (suns?.key === key) return suns;
  const azimuth = new Float32Array(COLUMNS * ROWS);
  const elevation = new Float32Array(COLUMNS * ROWS);
  const month = new Uint8Array(COLUMNS);
  const offset = standardOffset_h(site.timeZone);
  for (let c = 0; c < COLUMNS; c++) {
    const day = Date.UTC(2025, 0, 1) + ((c + 0.5) * 365 * 24 * HOUR_MS) / COLUMNS;
    const start = Math.floor(day / (24 * HOUR_MS)) * 24 * HOUR_MS;
    month[c] = new Date(start).getUTCMonth();
    for (let r = 0; r < ROWS; r++) {
      const sun = sunPlace(start + ((r + 0.5) * 24 * HOUR_MS) / ROWS - offset * HOUR_MS, site);
      azimuth[c * ROWS + r] = sun.azimuth_deg;
      elevation[c * ROWS + r] = 90 - sun.zenith_deg;
    }
  }
  suns = { key, azimuth, elevation, month };
  return suns;
}

function shadeOf({ project }: YardAsk): YardShade {
  const scene = yardScene(project, STANDARD_TABLES);
  const tables = shadeTables(scene, known);
  const areas = scene.parts.map((part) => shadeGrid(part).area_m2);
  const whole = areas.reduce((a, b) => a + b, 0);
  const { azimuth, elevation, month } = sunsOf(project.site);
  const shares = {
    pool: (m: number, az: number, el: number) => (tables.pool ? sunlitShare(tables.pool, m, az, el) : 1),
    collector: (m: number, az: number, el: number) =>
      tables.parts.reduce(
        (sum, part, i) => sum + (areas[i] / whole) * (part ? sunlitShare(part, m, az, el) : 1),
        0,
      ),
  };
  const carpet = (of: (m: number, az: number, el: number) => number) => {
    const out = new Float32Array(COLUMNS * ROWS);
    const lit = new Float64Array(13);
    const all = new Float64Array(13);
    for (let i = 0; i < out.length; i++) {
      const m = month[Math.floor(i / ROWS)];
      out[i] = elevation[i] > 0 ? of(m, azimuth[i], elevation[i]) : -1;
      if (out[i] < 0) continue;
      const weight = Math.sin((elevation[i] * Math.PI) / 180);
      for (const k of [m, 12]) {
        lit[k] += out[i] * weight;
        all[k] += weight;
      }
    }
    return { out, share: Array.from(lit, (v, k) => (all[k] > 0 ? v / all[k] : 0)) };
  };
  const pool = carpet(shares.pool);
  const collector = carpet(shares.collector);
  return {
    pool: tables.pool,
    parts: [...tables.parts],
    areas,
    poolCarpet: pool.out,
    collectorCarpet: collector.out,
    year: { pool: pool.share[12], collector: collector.share[12] },
    months: { pool: pool.share.slice(0, 12), collector: collector.share.slice(0, 12) },
  };
}

self.onmessage = (event: MessageEvent<YardAsk>) => {
  const { id } = event.data;
  let reply: YardReply;
  try {
    reply = { id, ok: true, shade: shadeOf(event.data) };
  } catch (error) {
    reply = { id, ok: false, message: error instanceof Error ? error.message : String(error) };
  }
  self.postMessage(reply);
};
