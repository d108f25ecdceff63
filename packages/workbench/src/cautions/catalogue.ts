/** Short cautions in the place where the hand is, for screen and paper. They defer to local codes and licensed practice. */
export interface Caution {
  id: string;
  title: string;
  text: string;
}

const caution = (id: string, title: string, text: string): [string, Caution] => [id, { id, title, text }];

/** Burn times: second-degree burns of adults at skin temperature, Moritz & Henriques 1947 (from memory). */
export const CAUTIONS = new Map<string, Caution>([
  caution(
    'deadHead',
    'Open one way before you shut the other.',
    'A pump that runs against two shut valves heats its own water and breaks its seal. Pump off before a valve that has no other way round.',
  ),
  caution(
    'scald',
    'The first water after standing scalds.',
    'At 60 °C (140 °F) skin burns in 3 s, at 55 °C (131 °F) in 17 s, at 49 °C (120 °F) in 8 min, a child’s sooner. Nobody at the outlets when the valve opens; open it slowly.',
  ),
  caution(
    'entrapment',
    'Never a single suction that a body can block.',
    'Added flow can exceed the rating on a drain cover. Keep two suctions open and every cover whole, rated and in place.',
  ),
  caution(
    'dryPump',
    'A pump does not stop by itself.',
    'If the water falls under the skimmer it runs dry, and an automatic fill keeps feeding a leak. Stay until it runs full; keep the main drain partly open only as its cover allows.',
  ),
  caution(
    'electric',
    'Bonding and GFCI / RCD are an electrician’s work.',
    'Switch the pump off at its breaker before you open anything on it.',
  ),
  caution(
    'noAirTest',
    'Never test with air or gas.',
    'Plastic pipe under air bursts into shards. Test with water only, all air bled first.',
  ),
  caution(
    'solvent',
    'Cement and primer: vapour and flame.',
    'Work in moving air, no flame or spark, gloves on; mind the cure time before pressure.',
  ),
  caution(
    'fall',
    'Roof and ladder.',
    'Tie the ladder, never alone, not on a wet roof. Ask who knows the roof what it carries.',
  ),
  caution(
    'roofLoad',
    'Load, wind and holes in the roof.',
    'Filled pipe is heavy and wind lifts it. Nothing here sizes timber or anchors: local code or an engineer does.',
  ),
  caution('digging', 'Before you dig.', 'Have buried cables and gas pipes marked first.'),
  caution(
    'freeze',
    'Frost bursts full pipe.',
    'Water that stays in a tube breaks it. Drain before the first frost, with air let in at the top.',
  ),
  caution(
    'stagnant',
    'Water that stood is warm and stale.',
    'Flush it and bring the chlorine up before anyone swims. A chemical feeder belongs downstream of everything.',
  ),
  caution(
    'liner',
    'Vinyl liners dislike hot water.',
    'Above 30 to 32 °C (86 to 90 °F) many lose their warranty and their shape.',
  ),
  caution(
    'level',
    'Never lower the pool to help the heater.',
    'An empty shell can float or crack, a liner shrinks.',
  ),
]);

export type Hand =
  | 'valve'
  | 'outlet'
  | 'pump'
  | 'suction'
  | 'pipe'
  | 'roof'
  | 'ground'
  | 'drain'
  | 'filter'
  | 'tube';

const BY_HAND: Record<Hand, string[]> = {
  valve: ['deadHead', 'scald', 'stagnant'],
  outlet: ['scald', 'liner'],
  pump: ['electric', 'dryPump', 'entrapment'],
  suction: ['entrapment', 'dryPump', 'level'],
  pipe: ['solvent', 'noAirTest', 'digging'],
  roof: ['fall', 'roofLoad'],
  ground: ['digging'],
  drain: ['scald', 'freeze'],
  filter: ['electric', 'deadHead'],
  tube: ['scald', 'solvent'],
};

export const cautionsFor = (hand: Hand): Caution[] => BY_HAND[hand].map((id) => CAUTIONS.get(id)!);

/** Where a place in the project file puts the person's hand. */
export function handOf(path: string, words = ''): Hand | null {
  const all = `${path} ${words}`.toLowerCase();
  if (/roof|ladder/.test(all)) return 'roof';
  if (/suction|skimmer|main drain|cover/.test(all)) return 'suction';
  if (/outlet/.test(all)) return 'outlet';
  if (/pump/.test(all)) return 'pump';
  if (/filter/.test(all)) return 'filter';
  if (/valve|bypass|opening/.test(all)) return 'valve';
  if (/drain|fall|frost/.test(all)) return 'drain';
  if (/feed|return|pipe/.test(all)) return 'pipe';
  return null;
}
