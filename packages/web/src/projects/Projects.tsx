import { useEffect, useState } from 'preact/hooks';
import { useApp } from '../app/context';
import { doc, projectsOpen, say, storeState } from '../app/state';
import { enterDoor } from '../doors/state';
import { Modal } from '../parts/Modal';
import type { StoredProject, StoredVersion } from '../store/storage';
import { t } from '../text/catalogue';
import { p } from '../text/projects';
import { type Keeper, projectId } from './keeper';

const when = (ms: number) =>
  new Date(ms).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });

/** Every project in this browser, and every named step of the one on the sheet. */
export function Projects({ keeper }: { keeper: Keeper }) {
  const { store, actions } = useApp();
  const [projects, setProjects] = useState<StoredProject[]>([]);
  const [versions, setVersions] = useState<StoredVersion[]>([]);
  const [asked, setAsked] = useState<string | null>(null);
  const open = projectsOpen.value;
  const id = projectId.value;
  const { revision } = storeState.value;
  useEffect(() => {
    if (!open) return;
    let live = true;
    void keeper.list().then((all) => live && setProjects(all));
    void keeper.versions().then((all) => live && setVersions(all));
    return () => {
      live = false;
    };
  }, [open, id, revision, asked]);
  if (!open) return null;
  const close = () => {
    projectsOpen.value = false;
    setAsked(null);
  };
  return (
    <Modal label={p.title} close={close} kind="projects">
      <div class="editor-head">
        <h2>{p.title}</h2>
        <button type="button" class="plain" aria-label={t.close} onClick={close}>
          ×
        </button>
      </div>
      <p class="hint">{p.intro}</p>
      <p class="note-acts">
        {(['plan', 'have'] as const).map((door) => (
          <button
            key={door}
            type="button"
            class="act"
            onClick={() => {
              close();
              void enterDoor(door, store, keeper);
            }}
          >
            {p[door]}
          </button>
        ))}
        <button type="button" class="act act-quiet" onClick={() => actions.saveFile()}>
          {p.save}
        </button>
        <button type="button" class="act act-quiet" onClick={() => actions.openFile()}>
          {p.openFile}
        </button>
      </p>
      <h3>{p.projects}</h3>
      <ul class="kept">
        {projects.map((one) => (
          <li key={one.id}>
            <span class="kept-name">
              <strong>{one.name}</strong>
              <span>
                {when(one.savedAt)}
                {one.doc.project.invented === true && ` · ${p.invented}`}
              </span>
            </span>
            {one.id === id ? (
              <span class="hint">{p.here}</span>
            ) : (
              <span class="kept-acts">
                <button
                  type="button"
                  class="act act-quiet"
                  aria-label={`${p.open} ${one.name}`}
                  onClick={() => {
                    void keeper.open(one.id).then((ok) => {
                      if (ok) close();
                      else say(p.unreadable);
                    });
                  }}
                >
                  {p.open}
                </button>
                <button
                  type="button"
                  class="plain"
                  aria-label={p.remove(one.name)}
                  onClick={() => setAsked(one.id)}
                >
                  ×
                </button>
              </span>
            )}
            {asked === one.id && (
              <p class="kept-sure" role="alert">
                {p.sure(one.name)}{' '}
                <button
                  type="button"
                  class="act"
                  onClick={() => {
                    void keeper.remove(one.id).then(() => {
                      setAsked(null);
                      say(p.removed(one.name));
                    });
                  }}
                >
                  {p.yes}
                </button>{' '}
                <button type="button" class="act act-quiet" onClick={() => setAsked(null)}>
                  {p.no}
                </button>
              </p>
            )}
          </li>
        ))}
      </ul>
      <h3>{p.history}</h3>
      <p class="hint">{versions.length === 0 ? p.none : p.historyHint}</p>
      <ol class="kept">
        {versions.map((v) => (
          <li key={v.key}>
            <span class="kept-name">
              <strong>{v.step}</strong>
              <span>{when(v.savedAt)}</span>
            </span>
            {v.doc.project !== doc.value.project && (
              <button
                type="button"
                class="act act-quiet"
                aria-label={`${p.restore}: ${v.step}`}
                onClick={() => store.apply(p.restored(v.step), { doc: v.doc, undo: 'commit' })}
              >
                {p.restore}
              </button>
            )}
          </li>
        ))}
      </ol>
    </Modal>
  );
}
