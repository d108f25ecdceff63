/** Words of the cards for the heater's life, on Test day and on Build. */
export const c = {
  title: 'Cards for the heater’s life',
  hint: 'Made from this design. Print one, or all, and hang them by the valve.',
  working: 'Making them from the design …',
  print: 'Print',
  printAll: 'Print all',
  printOne: (title: string) => `Print: ${title}`,
  history: 'What was done to it',
  noHistory: 'Nothing is recorded yet: changes of plumbing and repairs are written on Test day, history.',
} as const;
