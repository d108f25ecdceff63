/** A town that the list knows. */
export interface PlaceFound {
  name: string;
  aside: string;
  latitude_deg: number;
  longitude_deg: number;
  elevation_m: number;
  timeZone: string;
}

/**
 * Degrees as people write them: `35.1`, `-106.6`, `35 06 30 N`, `106° 36' W`.
 *
 * @returns null where it cannot be read or lies beyond `most`
 */
export function readDegrees(text: string, most: number): number | null {
  const found =
    /^\s*([-+−]?)\s*(\d{1,3}(?:[.,]\d+)?)\s*°?\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*['′]?\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*["″]?)?)?\s*([NSEWnsew]?)\s*$/.exec(
      text,
    );
  if (found === null) return null;
  const number = (part: string | undefined) => (part === undefined ? 0 : Number(part.replace(',', '.')));
  const size = number(found[2]) + number(found[3]) / 60 + number(found[4]) / 3600;
  const negative = found[1] === '-' || found[1] === '−' || /[SWsw]/.test(found[5]);
  return size <= most ? (negative ? -size : size) : null;
}

/** Towns of the list whose name has what is typed; null while there is too little to go by. The list is fetched when asked for. */
export async function searchTowns(typed: string): Promise<readonly PlaceFound[] | null> {
  if (typed.trim().length < 2) return null;
  const { searchPlaces } = await import('@sunlap/data/places');
  return searchPlaces(typed, 6).map((p) => {
    const [name, ...aside] = p.name.split(', ');
    const { latitude_deg, longitude_deg, elevation_m, timeZone } = p;
    return { name, aside: aside.join(', '), latitude_deg, longitude_deg, elevation_m, timeZone };
  });
}
