/** What an answer was made from, when someone asks why. */
export const inputsText = {
  sunOnPlane: 'Sun on the plane',
  sunHeight: 'Sun over the horizon',
  waterIn: 'Water in',
  waterOut: 'Water out',
  area: 'Tube area facing the sun',
  kept: 'Share of the sun kept',
  resistances: 'Resistance of air · wall · water, m·K/W',
  dry: 'Stands dry at',
  solver: 'Solver',
  solverText: (steps: number, residual: string) => `${steps} steps, residual ${residual}`,
  headerNumber: (bank: string) => `${bank}, header number m`,
  airText: (clear: number, doubtful: number, hold: number) =>
    `${clear} clear, ${doubtful} doubtful, ${hold} hold`,
  stays: 'Stays in the panel',
} as const;
