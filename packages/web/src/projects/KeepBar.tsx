import { useApp } from '../app/context';
import { projectsOpen, saveState } from '../app/state';
import { p } from '../text/projects';
import { elsewhere, type Keeper } from './keeper';

/** Says when what is on the sheet is not kept, why, and what to do. */
export function KeepBar({ keeper }: { keeper: Keeper }) {
  const { actions } = useApp();
  const state = saveState.value;
  if (elsewhere.value)
    return (
      <div class="keep-bar" role="alert">
        <p>
          <strong>{p.elsewhere.title}</strong> {p.elsewhere.text}
        </p>
        <p class="note-acts">
          <button type="button" class="act" onClick={() => void keeper.takeOver()}>
            {p.elsewhere.take}
          </button>
          <button type="button" class="act act-quiet" onClick={() => keeper.copy()}>
            {p.elsewhere.copy}
          </button>
        </p>
      </div>
    );
  if (state !== 'full' && state !== 'failed') return null;
  return (
    <div class="keep-bar" role="alert">
      <p>
        <strong>{p[state].title}</strong> {p[state].text}
      </p>
      <p class="note-acts">
        <button type="button" class="act" onClick={() => actions.saveFile()}>
          {p.save}
        </button>
        {state === 'full' && (
          <button
            type="button"
            class="act act-quiet"
            onClick={() => {
              projectsOpen.value = true;
            }}
          >
            {p.title}
          </button>
        )}
      </p>
    </div>
  );
}
