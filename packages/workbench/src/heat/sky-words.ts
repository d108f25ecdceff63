import { findSky, type Sky } from '@sunlap/data/skies';

/** Skies that a person can name, each with the row of the sky table that it means. */
const WORDS: Readonly<Record<string, Sky['id']>> = {
  clear: 'clear',
  sunny: 'clear',
  hazy: 'hazy',
  fair: 'hazy',
  'mostly sunny': 'hazy',
  'mostly clear': 'hazy',
  'few clouds': 'hazy',
  thin: 'thinCloud',
  'thin cloud': 'thinCloud',
  'thin clouds': 'thinCloud',
  'high cloud': 'thinCloud',
  'high clouds': 'thinCloud',
  thincloud: 'thinCloud',
  half: 'halfCloud',
  'half cloud': 'halfCloud',
  'half cloudy': 'halfCloud',
  halfcloud: 'halfCloud',
  partly: 'halfCloud',
  'partly cloudy': 'halfCloud',
  'partly sunny': 'halfCloud',
  'scattered clouds': 'halfCloud',
  overcast: 'overcast',
};

/** One word for each row of the sky table, from the clearest: what a face names where it asks for a sky. */
export const SKY_WORDS: readonly string[] = ['clear', 'hazy', 'thin cloud', 'half cloud', 'overcast'];

/** Every text that names a row. */
export const skyTexts: readonly string[] = Object.keys(WORDS);

/**
 * The row of the sky table that a text names; undefined where it names none.
 *
 * @example skyRow('Partly cloudy')?.id // 'halfCloud'
 */
export function skyRow(text: string): Sky | undefined {
  const plain = text.trim().toLowerCase().replace(/\s+/g, ' ');
  return Object.hasOwn(WORDS, plain) ? findSky(WORDS[plain]) : undefined;
}
