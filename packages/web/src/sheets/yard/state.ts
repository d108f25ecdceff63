import { signal } from '@preact/signals';
import { POOL } from './place';

/** What is taken hold of in the yard. */
export const picked = signal<string | null>(POOL);
