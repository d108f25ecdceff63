/** Hours of a month's day in which running the collector pays. */
export interface WorthHours {
  /** 1 = January. */
  month: number;
  /** By the wall clock; null when no hour pays. */
  from_h: number | null;
  to_h: number | null;
  /** Mean heat over those hours [W]. */
  heat_W: number;
  /** Mean heat that was to be had, by hour of the day [W]; 0 in the dark. */
  byHour_W: number[];
}

/** Less mean heat than this is not worth a walk to the valve [W]; judgement. */
export const MEAN_WORTH_W = 300;

/**
 * The longest run of hours whose mean heat passes a threshold, by month.
 *
 * @param potential_W mean heat by month × 24 + hour
 * @param least_W     what pays: the pump's extra power several times over
 * @example worthHours(potential, 300)[5].from_h // 9
 */
export function worthHours(potential_W: ArrayLike<number>, least_W: number): WorthHours[] {
  return Array.from({ length: 12 }, (_, m) => {
    const byHour_W = Array.from({ length: 24 }, (_, h) => potential_W[m * 24 + h]);
    let best = { from: 0, to: 0, heat: 0 };
    for (let h = 0; h < 24; h++) {
      let to = h;
      let heat = 0;
      while (to < 24 && byHour_W[to] >= least_W) heat += byHour_W[to++];
      if (heat > best.heat) best = { from: h, to, heat };
      h = to;
    }
    const any = best.to > best.from;
    return {
      month: m + 1,
      from_h: any ? best.from : null,
      to_h: any ? best.to : null,
      heat_W: any ? best.heat / (best.to - best.from) : 0,
      byHour_W,
    };
  });
}
