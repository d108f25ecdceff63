/** A wait as people say it. @example planCure(7200) // '2 h' */
export function planCure(seconds: number): string {
  if (seconds < 5400) return `${Math.round(seconds / 60)} min`;
  return seconds < 172_800 ? `${Math.round(seconds / 3600)} h` : `${Math.round(seconds / 86_400)} days`;
}
