/** Words of the two doors, which stand on the first screen. */
export const d = {
  title: 'What brings you here?',
  plan: 'I am planning one',
  planHint: 'Draw a panel and see its heat, its joints and its cost move together.',
  have: 'I have one',
  haveHint: 'Draw it, time a pail, read two thermometers, and see whether it does what it should.',
  look: 'Look round the example first',
  behind: 'Behind this: “Quince yard”, an invented example. All of it works.',
  firstName: { plan: 'My planned heater', have: 'My heater' },
  begun: { plan: 'Began a plan', have: 'Began to draw what is there' },
} as const;
