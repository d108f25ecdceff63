import type { Palette } from './palette';

function channels(hex: string): [number, number, number] {
  const n = Number.parseInt(hex.slice(1), 16);
  return [(n >> 16) & 255, (n >> 8) & 255, n & 255];
}

const linear = (c: number) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
const coded = (c: number) =>
  Math.round(255 * Math.min(1, Math.max(0, c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055)));

/** sRGB hex to Oklab (Ottosson 2020, from memory). */
function toLab(hex: string): [number, number, number] {
  const [r, g, b] = channels(hex).map(linear) as [number, number, number];
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

function toHex([L, a, b]: [number, number, number]): string {
  const l = (L + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (L - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (L - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const rgb = [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
  return `#${rgb.map((c) => coded(c).toString(16).padStart(2, '0')).join('')}`;
}

/**
 * Colour of water between the coolest (0) and the warmest (1) of a sheet: cool → sand → warm, even to the eye
 * because it is mixed in Oklab. Values outside 0…1 and NaN are held at the nearer end (NaN at 0).
 *
 * @example heatColour(0, LIGHT) // '#1d7386'
 */
export function heatColour(share: number, palette: Palette): string {
  const t = share > 0 ? Math.min(share, 1) : 0;
  const [from, to, u] =
    t <= 0.5 ? [palette.cool, palette.sand, t * 2] : [palette.sand, palette.warm, t * 2 - 1];
  if (u === 0) return from;
  if (u === 1) return to;
  const a = toLab(from);
  const b = toLab(to);
  return toHex([a[0] + (b[0] - a[0]) * u, a[1] + (b[1] - a[1]) * u, a[2] + (b[2] - a[2]) * u]);
}
