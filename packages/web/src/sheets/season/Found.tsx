import { units } from '../../app/state';
import { say } from '../../shape/quantity';
import { s } from '../../text/season';
import { y } from '../../text/yard';
import type { WeatherNotice } from './weather-found';

/** What was found in a weather file, or why it was refused. */
export function Found({ found }: { found: WeatherNotice }) {
  const u = units.value;
  if (!found.ok)
    return (
      <div class="season-found" role="alert">
        <h2>{s.climate.refused(found.name)}</h2>
        <ul>
          {found.problems.slice(0, 6).map((p) => (
            <li key={p}>{p}</li>
          ))}
        </ul>
      </div>
    );
  const off = found.shift_min;
  const rows: [string, string][] = [
    [s.climate.foundFormat, s.climate.formats[found.format]],
    [
      s.climate.foundPlace,
      `${found.place}, ${found.latitude_deg.toFixed(2)}°, ${found.longitude_deg.toFixed(2)}°`,
    ],
    [s.climate.foundZone, `UTC ${found.utcOffset_h >= 0 ? '+' : '−'}${Math.abs(found.utcOffset_h)} h`],
    [s.climate.foundStated, found.convention],
    [
      s.climate.foundLight,
      off === null
        ? s.climate.foundUnknown
        : Math.abs(off) < 8
          ? s.climate.fits
          : s.climate.foundFit(off.toFixed(0)),
    ],
    [s.climate.foundRows, `${found.rows}${found.filled > 0 ? s.climate.foundFilled(found.filled) : ''}`],
  ];
  return (
    <div class="season-found" role="status">
      <h2>{s.climate.found(found.name)}</h2>
      <dl>
        {rows.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {found.notices.length > 0 && (
        <ul>
          {found.notices.map((n) => (
            <li key={n}>{n}</li>
          ))}
        </ul>
      )}
      <details>
        <summary>{s.climate.foundMonths}</summary>
        <ul>
          {found.months.map((m, i) => (
            <li key={y.months[i]}>
              {y.months[i]} {say(m.high_C, 'temperature', u)} / {say(m.low_C, 'temperature', u)},{' '}
              {Number.isFinite(m.irradiation_kWhm2) ? `${m.irradiation_kWhm2.toFixed(1)} kWh/m²` : '–'},{' '}
              {say(m.wind_ms, 'windSpeed', u)}
            </li>
          ))}
        </ul>
      </details>
    </div>
  );
}
