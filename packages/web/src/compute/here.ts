import { study as compute } from './usecases';

/** The same use-cases, in the page: fetched only once answers are known to take less than a frame. */
export const study = compute;
