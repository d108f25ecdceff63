import { signal } from '@preact/signals';
import { POOL } from './place';
import type { Way } from './routes';

/** What is taken hold of in the yard. */
export const picked = signal<string | null>(POOL);

/** Way of the pipe whose corners are held. */
export const routePicked = signal<Way | null>(null);
