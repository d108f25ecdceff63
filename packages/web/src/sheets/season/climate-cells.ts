import type { UnitSystem } from '@sunlap/project/units/kinds';
import { CLIMATE_LIMITS, type ClimateColumn } from '@sunlap/workbench/season/own-climate';
import { show } from '../../shape/quantity';
import { read } from '../../shape/readQuantity';
import { s } from '../../text/season';

export type Typed = { ok: true; column: ClimateColumn; value: number } | { ok: false; message: string };

const plain = (v: number, decimals: number): string =>
  v.toFixed(decimals).replace(/\.0+$/, '').replace('-', '−');

/** A cell's figure in the person's units; the unit stands over the column. */
export function cellText(column: ClimateColumn, value: number, units: UnitSystem): string {
  switch (column) {
    case 'high_C':
    case 'low_C':
    case 'dewPoint_C':
      return show(value, 'temperature', units).number.replace(/\.0$/, '');
    case 'humidity':
      return plain(value * 100, 0);
    case 'wind_ms':
      return show(value, 'windSpeed', units).number;
    case 'rain_mm':
      return units === 'us' ? plain(value / 25.4, 1) : plain(value, 0);
    default:
      return plain(value, 1);
  }
}

export function columnUnit(column: ClimateColumn, units: UnitSystem): string {
  switch (column) {
    case 'humidity':
      return '%';
    case 'wind_ms':
      return units === 'us' ? 'mph' : 'm/s';
    case 'rain_mm':
      return units === 'us' ? 'in' : 'mm';
    case 'sunshine_h':
      return 'h';
    case 'irradiation_kWhm2':
      return 'kWh/m²';
    default:
      return units === 'us' ? '°F' : '°C';
  }
}

const NUMBER = /^[−-]?\d+(?:[.,]\d+)?$/;

/** Reads a figure of a column as people write it; sun is taken in hours or as energy, damp as a share or a dew point. */
export function readCell(column: ClimateColumn, text: string, units: UnitSystem): Typed {
  const raw = text.trim();
  const bare = NUMBER.test(raw) ? Number(raw.replace('−', '-').replace(',', '.')) : null;
  const take = (into: ClimateColumn, value: number): Typed => {
    const [low, high] = CLIMATE_LIMITS[into];
    if (value >= low && value <= high) return { ok: true, column: into, value };
    const unit = columnUnit(into, units);
    const say = (v: number) => `${cellText(into, v, units)} ${unit}`;
    return { ok: false, message: s.table12.outside(say(low), say(high)) };
  };
  switch (column) {
    case 'sunshine_h':
    case 'irradiation_kWhm2': {
      if (bare !== null) return take(column, bare);
      const energy = read(raw, 'irradiation', units);
      if (energy.ok) return take('irradiation_kWhm2', energy.value / 3.6e6);
      const time = read(raw, 'time', units);
      return time.ok ? take('sunshine_h', time.value / 3600) : { ok: false, message: time.message };
    }
    case 'humidity':
    case 'dewPoint_C': {
      if (column === 'humidity' && bare !== null) return take(column, bare / 100);
      const share = raw.includes('%') ? read(raw, 'ratio', units) : null;
      if (share?.ok) return take('humidity', share.value);
      const warm = read(raw, 'temperature', units);
      return warm.ok ? take('dewPoint_C', warm.value) : { ok: false, message: warm.message };
    }
    case 'rain_mm': {
      if (bare !== null) return take(column, units === 'us' ? bare * 25.4 : bare);
      const deep = read(raw, 'smallLength', units);
      return deep.ok ? take(column, deep.value * 1000) : { ok: false, message: deep.message };
    }
    case 'wind_ms': {
      const wind = read(raw, 'windSpeed', units);
      return wind.ok ? take(column, wind.value) : { ok: false, message: wind.message };
    }
    default: {
      const warm = read(raw, 'temperature', units);
      return warm.ok ? take(column, warm.value) : { ok: false, message: warm.message };
    }
  }
}
