import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Say } from '../flow/say';
import type { ResolvedMoment } from './moment';

/** Sun beside a bright cloud may exceed what arrives above the air for minutes; common practice, about a fifth. */
const BESIDE_CLOUD = 1.2;
/** Twilight, moon, and a meter's own zero [W/m²]; judgement. */
const TWILIGHT_WM2 = 20;

/** A reading of the sky that no sun of that moment can give: more than arrives above the air, or light at night. */
export function oddSkyNotices({ moment, light, reading_Wm2 }: ResolvedMoment, say: Say): Notice[] {
  if (reading_Wm2 === null) return [];
  const level = light.extraterrestrial_Wm2 * Math.max(0, Math.cos((light.sunZenith_deg * Math.PI) / 180));
  if (reading_Wm2 <= BESIDE_CLOUD * level + TWILIGHT_WM2) return [];
  const read = say(reading_Wm2, 'irradiance');
  const why =
    level > 0
      ? `above the air no more than ${say(level, 'irradiance')} fall on the level then`
      : 'the sun is down then';
  return [
    {
      code: 'sky-reading-odd',
      severity: 'unsure',
      path: '/site/timeZone',
      message: `A sky of ${read} at ${moment.at.slice(11)} cannot be: ${why}. The heat shown stands on it.`,
      remedy: 'See whether the time is that of the place, and whether the meter lay level.',
    },
  ];
}
