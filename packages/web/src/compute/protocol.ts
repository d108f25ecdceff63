import type { Doc } from '../store/doc';
import type { Depth, Study } from './usecases';

export interface Ask {
  id: number;
  doc: Doc;
  depth: Depth;
}

export type Reply =
  | { id: number; ok: true; study: Study; took_ms: number }
  | { id: number; ok: false; message: string };
