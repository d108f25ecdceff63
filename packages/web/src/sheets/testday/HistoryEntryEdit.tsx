import type { Repair } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import type { HistoryEntry } from '@sunlap/workbench/state/history';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, say } from '../../app/state';
import { d } from '../../text/testday';
import { editRepair, editState, removeRepair, removeState } from './history-edits';

const isDay = (text: string) => /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/.test(text);
const KINDS = Object.keys(d.history.kinds) as Repair['what'][];

/** Day, name and words of one recorded state or repair, and its way out of the history. */
export function HistoryEntryEdit({ entry, close }: { entry: HistoryEntry; close: () => void }) {
  const { store } = useApp();
  const { project } = doc.value;
  const state = project.asBuilt.find((s) => s.id === entry.id);
  const repair = project.repairs.find((r) => r.id === entry.id);
  const [day, setDay] = useState(entry.date);
  const [name, setName] = useState(state?.name ?? '');
  const [what, setWhat] = useState<Repair['what']>(repair?.what ?? 'other');
  const [words, setWords] = useState(entry.text);
  const apply = (step: string, next: Project): void => {
    const { doc: now } = store.get();
    if (next === now.project) {
      say(d.history.taken);
      return;
    }
    store.apply(step, { doc: { ...now, project: next }, undo: 'commit' });
    close();
  };
  const isState = entry.kind === 'state';
  return (
    <form
      class="record history-edit"
      aria-label={d.history.editOf(entry.title)}
      onSubmit={(event) => {
        event.preventDefault();
        if (!isDay(day)) return;
        const at = store.get().doc.project;
        apply(
          d.steps.edited(entry.title),
          isState
            ? editState(at, entry.id, { from: day, name, change: words.trim() })
            : editRepair(at, entry.id, { date: day, what, notes: words.trim() }),
        );
      }}
    >
      <div class="ask-two">
        <label class="row">
          <span>{isState ? d.history.from : d.history.date}</span>
          <input type="date" value={day} onInput={(event) => setDay(event.currentTarget.value)} />
        </label>
        {isState ? (
          <label class="row">
            <span>{d.history.name}</span>
            <input
              value={name}
              maxLength={200}
              required
              onInput={(event) => setName(event.currentTarget.value)}
            />
          </label>
        ) : (
          <label class="row">
            <span>{d.history.what}</span>
            <select
              value={what}
              onChange={(event) => setWhat(KINDS.find((k) => k === event.currentTarget.value) ?? 'other')}
            >
              {KINDS.map((kind) => (
                <option key={kind} value={kind}>
                  {d.history.kinds[kind]}
                </option>
              ))}
            </select>
          </label>
        )}
      </div>
      <label class="row">
        <span>{isState ? d.history.change : d.history.notes}</span>
        <input value={words} maxLength={2000} onInput={(event) => setWords(event.currentTarget.value)} />
      </label>
      <p class="note-acts">
        <button type="submit" class="act">
          {d.history.keep}
        </button>
        <button
          type="button"
          class="act act-quiet"
          onClick={() => {
            const at = store.get().doc.project;
            apply(
              d.steps.removed(entry.title),
              isState ? removeState(at, entry.id) : removeRepair(at, entry.id),
            );
          }}
        >
          {d.history.remove}
        </button>
        <button type="button" class="act act-quiet" onClick={close}>
          {d.history.leave}
        </button>
      </p>
    </form>
  );
}
