/** Words of the editor of a field. */
export const editorText = {
  less: 'one step less',
  more: 'one step more',
  down: (v: string) => `down to ${v}`,
  up: (v: string) => `up to ${v}`,
  effect: 'What one step does to the heat now',
  same: 'no change',
  working: '…',
  keeps: (v: string) => `Still ${v} until this can be read.`,
  outside: (low: string, high: string) => `Between ${low} and ${high}.`,
  unknownPipe: (text: string, family: string) => `No ${text} in ${family}.`,
  scopeAll: 'Changes every section.',
  scopeOne: (name: string) => `Changes ${name} only.`,
  nothingSmaller: 'smallest',
  nothingLarger: 'largest',
} as const;
