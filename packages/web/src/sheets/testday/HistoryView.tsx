import type { Repair } from '@sunlap/project/schema/life';
import { type HistoryEntry, history } from '@sunlap/workbench/state/history';
import { recordRepair, recordState } from '@sunlap/workbench/state/record';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc } from '../../app/state';
import { Cautions } from '../../parts/Cautions';
import { d } from '../../text/testday';
import { localTime } from './edits';
import { HistoryEntryEdit } from './HistoryEntryEdit';

const DONE = ['plugged', 'coupled', 'replaced', 'reglued', 'cleaned', 'other'] as const;
const isDay = (text: string) => /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/.test(text);

function RecordState({ today }: { today: string }) {
  const { store } = useApp();
  const [from, setFrom] = useState(today);
  const [name, setName] = useState('');
  const [change, setChange] = useState('');
  return (
    <form
      class="record"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isDay(from)) return;
        const { doc: now } = store.get();
        const called = name.trim() || d.history.firstName;
        const project = recordState(now.project, {
          from,
          name: called,
          ...(change.trim() === '' ? {} : { change: change.trim() }),
        });
        store.apply(d.steps.state(called), { doc: { ...now, project }, undo: 'commit' });
        setName('');
        setChange('');
      }}
    >
      <h3>{d.history.record}</h3>
      <p class="hint">{d.history.recordHint}</p>
      <div class="ask-two">
        <label class="row">
          <span>{d.history.from}</span>
          <input type="date" value={from} onInput={(event) => setFrom(event.currentTarget.value)} />
        </label>
        <label class="row">
          <span>{d.history.name}</span>
          <input
            value={name}
            maxLength={200}
            placeholder={d.history.firstName}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
      </div>
      <label class="row">
        <span>{d.history.change}</span>
        <input value={change} maxLength={2000} onInput={(event) => setChange(event.currentTarget.value)} />
      </label>
      <button type="submit" class="act">
        {d.history.put}
      </button>
    </form>
  );
}

function RecordRepair({ today }: { today: string }) {
  const { store } = useApp();
  const { collector } = doc.value.project;
  const [date, setDate] = useState(today);
  const [where, setWhere] = useState('');
  const [tube, setTube] = useState('');
  const [what, setWhat] = useState<Repair['what']>('coupled');
  const [notes, setNotes] = useState('');
  const [section, bank] = where.split('/');
  const banks = collector.sections.flatMap((s) =>
    s.banks.map((b) => ({
      value: `${s.id}/${b.id}`,
      label: `${s.name ?? s.id}, ${b.name ?? b.id}`,
      count: b.count,
    })),
  );
  const count = banks.find((b) => b.value === where)?.count ?? 0;
  return (
    <form
      class="record"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isDay(date)) return;
        const { doc: now } = store.get();
        const project = recordRepair(now.project, {
          date,
          what,
          ...(bank === undefined ? {} : { section, bank }),
          ...(tube === '' || bank === undefined ? {} : { tube: Number(tube) }),
          ...(notes.trim() === '' ? {} : { notes: notes.trim() }),
        });
        store.apply(d.steps.repair, { doc: { ...now, project }, undo: 'commit' });
        setNotes('');
        setTube('');
      }}
    >
      <h3>{d.history.repair}</h3>
      <div class="ask-two">
        <label class="row">
          <span>{d.history.date}</span>
          <input type="date" value={date} onInput={(event) => setDate(event.currentTarget.value)} />
        </label>
        <label class="row">
          <span>{d.history.what}</span>
          <select value={what} onChange={(event) => setWhat(event.currentTarget.value as Repair['what'])}>
            {DONE.map((kind) => (
              <option key={kind} value={kind}>
                {d.history.kinds[kind]}
              </option>
            ))}
          </select>
        </label>
        <label class="row">
          <span>{d.history.where}</span>
          <select value={where} onChange={(event) => setWhere(event.currentTarget.value)}>
            <option value="">{d.history.whole}</option>
            {banks.map((b) => (
              <option key={b.value} value={b.value}>
                {b.label}
              </option>
            ))}
          </select>
        </label>
        <label class="row">
          <span>{d.history.tube}</span>
          <select
            value={tube}
            disabled={count === 0}
            onChange={(event) => setTube(event.currentTarget.value)}
          >
            <option value="">–</option>
            {Array.from({ length: count }, (_, i) => (
              <option key={i + 1} value={String(i + 1)}>
                {i + 1}
              </option>
            ))}
          </select>
        </label>
      </div>
      <label class="row">
        <span>{d.history.notes}</span>
        <input value={notes} maxLength={2000} onInput={(event) => setNotes(event.currentTarget.value)} />
      </label>
      <button type="submit" class="act">
        {d.history.put}
      </button>
      <Cautions hand="pipe" short />
    </form>
  );
}

/** Changes of plumbing and repairs with their days; what a test day is judged against follows from it. */
export function HistoryView() {
  const { project } = doc.value;
  const today = localTime(new Date(), project.site.timeZone).slice(0, 10);
  const entries = history(project).reverse();
  const [open, setOpen] = useState<string | null>(null);
  const keyOf = (e: HistoryEntry) => `${e.kind} ${e.id}`;
  return (
    <section class="card" aria-labelledby="history-title">
      <h2 id="history-title">{d.history.title}</h2>
      {entries.length === 0 && <p class="hint">{d.history.none}</p>}
      <ol class="kept history">
        {entries.map((e) => (
          <li key={keyOf(e)} class={open === keyOf(e) ? 'history-open' : ''}>
            <span class="history-date">{e.date}</span>
            <span class="kept-name">
              <strong>{e.title}</strong>
              <span>
                {d.history.kindOf[e.kind]}
                {e.text !== '' && ` · ${e.text}`}
              </span>
            </span>
            {e.kind !== 'testDay' && (
              <button
                type="button"
                class="quiet history-key"
                aria-expanded={open === keyOf(e)}
                aria-label={d.history.editOf(e.title)}
                onClick={() => setOpen(open === keyOf(e) ? null : keyOf(e))}
              >
                {d.history.edit}
              </button>
            )}
            {open === keyOf(e) && <HistoryEntryEdit entry={e} close={() => setOpen(null)} />}
          </li>
        ))}
      </ol>
      <div class="records">
        <RecordState today={today} />
        <RecordRepair today={today} />
      </div>
    </section>
  );
}
