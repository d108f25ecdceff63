import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { doc, fresh, reference, referenceStudy, study } from '../../app/state';
import { ask, newestFirst } from './ask';
import type { Built, How } from './protocol';

export const VIEWS = ['drawings', 'parts', 'cuts', 'supports', 'work', 'cards'] as const;
export type View = (typeof VIEWS)[number];
export const view = signal<View>('drawings');
/** Drawing that lies on top. */
export const drawingId = signal<string | null>(null);

const HOW_KEY = 'sunlap-build';
const USUAL: How = { scope: 'heater', join: 'coupling', unions: true, tool: 'handSaw', primer: true };

function keptHow(): How {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(HOW_KEY) ?? '{}');
    const own = typeof kept === 'object' && kept !== null ? (kept as Partial<How>) : {};
    return {
      scope: own.scope === 'all' ? 'all' : USUAL.scope,
      join: own.join === 'bell' || own.join === 'none' ? own.join : USUAL.join,
      unions: own.unions !== false,
      tool: own.tool === 'ratchet' || own.tool === 'chopSaw' ? own.tool : USUAL.tool,
      primer: own.primer !== false,
    };
  } catch {
    return USUAL;
  }
}

export const how = signal<How>(keptHow());

export function setHow(change: Partial<How>): void {
  how.value = { ...how.value, ...change };
  try {
    localStorage.setItem(HOW_KEY, JSON.stringify(how.value));
  } catch {
    // a browser that keeps nothing still builds
  }
}

/** Proofs were asked for: every later plan is proven too. */
export const prove = signal(false);

export const built = signal<Built | null>(null);
export const builtHeld = signal<Built | null>(null);
export const buildError = signal<string | null>(null);
/** Question that the answer shown belongs to. */
const answered = signal<unknown>(null);
const asked = signal<unknown>(null);
export const buildBusy = (): boolean => asked.value !== answered.value;

const run = newestFirst<Built>();
const runHeld = newestFirst<Built>();

/** Keeps the answer that of the document shown. */
export function useBuilt(): void {
  const { project } = doc.value;
  const now = fresh.value ? study.value : null;
  const ways = how.value;
  const proof = prove.value;
  useEffect(() => {
    const question = {};
    asked.value = question;
    run(
      () =>
        ask('build', {
          project,
          how: ways,
          prove: proof,
          drawn: true,
          studies: now === null ? {} : { flow: now.flow, ...(now.heat === null ? {} : { heat: now.heat }) },
        }),
      (answer) => {
        built.value = answer;
        buildError.value = null;
        answered.value = question;
      },
      (error) => {
        buildError.value = error.message;
        answered.value = question;
        // without its solver the plan still has its bound
        if (proof) prove.value = false;
      },
    );
  }, [project, now, ways, proof]);
  const held = reference.value?.doc.project ?? null;
  const heldStudy = referenceStudy.value;
  useEffect(() => {
    if (held === null) {
      builtHeld.value = null;
      return;
    }
    runHeld(
      () =>
        ask('build', {
          project: held,
          how: ways,
          prove: false,
          drawn: false,
          studies: heldStudy?.heat ? { heat: heldStudy.heat } : {},
        }),
      (answer) => {
        builtHeld.value = answer;
      },
      () => {
        builtHeld.value = null;
      },
    );
  }, [held, heldStudy, ways]);
}
