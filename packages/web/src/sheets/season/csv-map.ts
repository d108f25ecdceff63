import type { RawColumn } from '@sunlap/engine/weather/assemble';
import type { Project } from '@sunlap/project/schema/project';
import { standardOffset_h } from '@sunlap/workbench/season/site-weather';
import { textOfBytes } from '@sunlap/workbench/weather/bytes';
import { previewTable, type TablePreview, UNITS_OF } from '@sunlap/workbench/weather/guess-mapping';
import type { CsvMapping, CsvUnit } from '@sunlap/workbench/weather/plain-csv';

export type Role = 'none' | 'stamp' | 'date' | 'clock' | RawColumn;
export const ROLES: readonly Role[] = [
  'none',
  'stamp',
  'date',
  'clock',
  ...(Object.keys(UNITS_OF) as RawColumn[]),
];

const HEAD_BYTES = 100_000;
const LINE_END = 10;

/** The first whole lines of a file, looked at as a table; null when it is none. */
export function previewOf(bytes: Uint8Array): TablePreview | null {
  let end = Math.min(bytes.length, HEAD_BYTES);
  if (end < bytes.length) while (end > 1 && bytes[end - 1] !== LINE_END) end--;
  return previewTable(textOfBytes(bytes.subarray(0, end > 1 ? end : HEAD_BYTES)));
}

/** What the head of a table suggests, at the project's own place. */
export function mappingFor(name: string, preview: TablePreview, project: Project): CsvMapping {
  const { latitude_deg, longitude_deg, elevation_m, timeZone } = project.site;
  const { delimiter, decimalComma, headerLines, time, dateOrder, columns } = preview;
  return {
    name,
    place: { latitude_deg, longitude_deg, elevation_m },
    utcOffset_h: standardOffset_h(timeZone),
    delimiter,
    decimalComma,
    headerLines,
    time,
    dateOrder,
    marks: 'start',
    columns,
    windHeight_m: 10,
  };
}

/** What a column is by the mapping; columns are counted from 1. */
export function roleOf({ time, columns }: CsvMapping, column: number): Role {
  if ('stamp' in time) {
    if (time.stamp === column) return 'stamp';
  } else if (time.date === column) return 'date';
  else if (time.clock === column) return 'clock';
  const found = (Object.entries(columns) as [RawColumn, { column: number }][]).find(
    ([, at]) => at.column === column,
  );
  return found?.[0] ?? 'none';
}

/** Makes a column what the person says it is; what it was before is let go, and who was it before, too. */
export function withRole(mapping: CsvMapping, column: number, role: Role): CsvMapping {
  const columns = Object.fromEntries(
    Object.entries(mapping.columns).filter(([name, at]) => name !== role && at.column !== column),
  ) as CsvMapping['columns'];
  const old = mapping.time;
  // no column is the time until one is named again
  const was = {
    stamp: 'stamp' in old && old.stamp !== column ? old.stamp : 0,
    date: 'date' in old && old.date !== column ? old.date : 0,
    clock: 'clock' in old && old.clock !== column ? old.clock : 0,
  };
  const time: CsvMapping['time'] =
    role === 'stamp'
      ? { stamp: column }
      : role === 'date'
        ? { date: column, clock: was.clock }
        : role === 'clock'
          ? { date: was.date, clock: column }
          : 'stamp' in old
            ? { stamp: was.stamp }
            : { date: was.date, clock: was.clock };
  if (role === 'none' || role === 'stamp' || role === 'date' || role === 'clock')
    return { ...mapping, columns, time };
  return { ...mapping, time, columns: { ...columns, [role]: { column, unit: UNITS_OF[role][0] } } };
}

export function withUnit(mapping: CsvMapping, role: RawColumn, unit: CsvUnit): CsvMapping {
  const at = mapping.columns[role];
  return at === undefined
    ? mapping
    : { ...mapping, columns: { ...mapping.columns, [role]: { ...at, unit } } };
}

/** What is still missing before a table can be read: its time, air, any sun. */
export function lacking({ time, columns }: CsvMapping): ('time' | 'air' | 'sun')[] {
  const timed = 'stamp' in time ? time.stamp !== 0 : time.date !== 0 && time.clock !== 0;
  const sun = columns.global_Wm2 ?? columns.directNormal_Wm2 ?? columns.diffuse_Wm2;
  return [
    ...(timed ? [] : (['time'] as const)),
    ...(columns.air_C === undefined ? (['air'] as const) : []),
    ...(sun === undefined ? (['sun'] as const) : []),
  ];
}
