/** Pool pipe in which the usual pump stays under the speed that suction pipe is held to: rows of the pipe table. */
export const POOL_PIPE = { us: 'pvc-sch40-2', metric: 'pvcu-pn10-63' } as const;
