import { dewPointFromHumidity, humidityFromDewPoint } from '../fluids/moist-air';
import type { Notice } from '../numeric/notice';
import type { RawColumn } from './assemble';
import { type ClimateTable, doubtfulRow } from './climate-table';
import { daily, MONTH_DAYS, MONTH_OF_DAY, meanByMonth, YEAR_HOURS } from './normals';

/**
 * Dew point by hour [°C]: the table's, drier on clear days, never over the air; guessed at the mean low where it is
 * silent.
 *
 * @param guessed receives the column where it is a guess
 */
export function hourlyDew(
  table: ClimateTable,
  clearness: Float64Array,
  air: Float64Array,
  guessed: RawColumn[],
  notices: Notice[],
): Float64Array {
  const byMonth = meanByMonth(clearness);
  const monthOfHour = (h: number): number => MONTH_OF_DAY[Math.floor(h / 24)];
  const hoursOf = MONTH_DAYS.map((days) => days * 24);
  if (table.months.some((m) => m.dewPoint_C === undefined && m.humidity === undefined)) {
    guessed.push('dewPoint_C');
    notices.push({
      code: 'climate-dew-guessed',
      severity: 'unsure',
      path: '/weather',
      message: 'Humidity is not given for every month: the dew point is guessed at the mean low',
      remedy: 'Give humidity or dew point: evaporation follows it.',
    });
  }
  const want = table.months.map((m) => ({
    dew: m.dewPoint_C ?? (m.humidity === undefined ? m.low_C : undefined),
    humidity: m.humidity,
  }));
  const nodes = want.map(({ dew, humidity }, m) => {
    const mean = (table.months[m].high_C + table.months[m].low_C) / 2;
    return dew ?? dewPointFromHumidity(mean, humidity ?? 0.6);
  });
  const lines = daily(nodes);
  const shift = new Array<number>(12).fill(0);
  const make = (): Float64Array => {
    const dew = new Float64Array(YEAR_HOURS);
    for (let h = 0; h < YEAR_HOURS; h++) {
      const d = Math.floor(h / 24);
      // Judgement: 6 K drier for a clearness index one higher; clear days ±1 K of the month's mean.
      dew[h] = Math.max(
        -55,
        Math.min(air[h], lines[d] + shift[MONTH_OF_DAY[d]] - 6 * (clearness[d] - byMonth[MONTH_OF_DAY[d]])),
      );
    }
    return dew;
  };
  let dew = make();
  for (let round = 0; round < 25; round++) {
    const gotDew = new Array<number>(12).fill(0);
    const gotHumidity = new Array<number>(12).fill(0);
    for (let h = 0; h < YEAR_HOURS; h++) {
      const m = monthOfHour(h);
      gotDew[m] += dew[h] / hoursOf[m];
      if (want[m].dew === undefined) gotHumidity[m] += humidityFromDewPoint(air[h], dew[h]) / hoursOf[m];
    }
    let worst = 0;
    for (let m = 0; m < 12; m++) {
      const { dew: target, humidity } = want[m];
      // 17 K of dew point to a factor e of vapour pressure.
      const off =
        target !== undefined
          ? target - gotDew[m]
          : 17 * Math.log((humidity ?? gotHumidity[m]) / gotHumidity[m]);
      worst = Math.max(worst, Math.abs(off));
      shift[m] += Math.min(4, Math.max(-4, off));
    }
    if (worst < 0.01) return dew;
    dew = make();
  }
  want.forEach(({ dew: target }, m) => {
    let got = 0;
    for (let h = 0; h < YEAR_HOURS; h++) if (monthOfHour(h) === m) got += dew[h] / hoursOf[m];
    if (target !== undefined && Math.abs(got - target) > 0.2 && table.months[m].dewPoint_C !== undefined)
      notices.push(
        doubtfulRow(
          m,
          `a dew point of ${target} °C does not fit the temperatures; ${got.toFixed(1)} °C is the mean made`,
        ),
      );
  });
  return dew;
}
