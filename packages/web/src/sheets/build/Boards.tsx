import type { SupportPlan } from '@sunlap/workbench/build/support-plan';
import { useState } from 'preact/hooks';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { QuantityInput } from '../../parts/QuantityInput';
import { say } from '../../shape/quantity';
import { b } from '../../text/build';
import { o } from '../../text/own';
import { addBoard, type Board, removeBoard } from './stock';

type Sizes = Pick<Board, 'length_m' | 'width_m' | 'thickness_m' | 'count'>;
/** A usual board, until the person says what theirs is. */
const USUAL = {
  us: { width_m: 0.0889, thickness_m: 0.0381 },
  metric: { width_m: 0.1, thickness_m: 0.038 },
};

function says(board: Sizes): string {
  const u = units.value;
  return o.boards.row(
    board.count,
    say(board.length_m, 'length', u),
    say(board.width_m, 'smallLength', u),
    say(board.thickness_m, 'smallLength', u),
  );
}

function AddBoard() {
  const { store } = useApp();
  const u = units.value;
  const [name, setName] = useState('');
  const [sizes, setSizes] = useState<Partial<Sizes>>({});
  const [turn, setTurn] = useState(0);
  const board = { ...USUAL[u], count: 1, ...sizes };
  const field = (key: keyof Sizes, label: string, kind: 'length' | 'smallLength' | 'count', max: number) => (
    <QuantityInput
      label={label}
      kind={kind}
      value={sizes[key] ?? (key === 'length_m' ? null : board[key as 'count'])}
      min={kind === 'count' ? 1 : 0.002}
      max={max}
      {...(key === 'length_m' ? { placeholder: say(2.4384, 'length', u) } : {})}
      onValue={(v) => setSizes({ ...sizes, [key]: kind === 'count' ? Math.round(v) : v })}
    />
  );
  const { length_m } = sizes;
  return (
    <form
      class="lengths-add boards-add"
      key={turn}
      onSubmit={(event) => {
        event.preventDefault();
        if (length_m === undefined) return;
        const added = { ...board, length_m };
        const { doc: now } = store.get();
        store.apply(o.steps.board(says(added)), {
          doc: {
            ...now,
            project: addBoard(now.project, {
              ...(name.trim() === '' ? {} : { name: name.trim() }),
              ...added,
            }),
          },
          undo: 'commit',
        });
        setName('');
        setSizes({});
        setTurn(turn + 1);
      }}
    >
      {field('count', o.boards.count, 'count', 500)}
      {field('length_m', o.boards.length, 'length', 20)}
      {field('width_m', o.boards.width, 'smallLength', 1)}
      {field('thickness_m', o.boards.thickness, 'smallLength', 0.5)}
      <label class="row">
        <span>{o.boards.name}</span>
        <input
          value={name}
          maxLength={100}
          placeholder={o.boards.namePlaceholder}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="act act-quiet" disabled={length_m === undefined}>
        {o.boards.add}
      </button>
    </form>
  );
}

/** Boards that lie about, and how the members are cut from them. */
export function Boards({ plan }: { plan: SupportPlan }) {
  const { store } = useApp();
  const u = units.value;
  const boards = doc.value.project.stock?.boards ?? [];
  const length = (v: number): string => say(v, 'length', u);
  return (
    <section class="boards lengths" aria-labelledby="boards-title">
      <h3 id="boards-title">{o.boards.title}</h3>
      <p class="hint">{o.boards.hint}</p>
      {boards.length > 0 && (
        <ul>
          {boards.map((board) => (
            <li key={board.id}>
              {says(board)}
              {board.name !== undefined && ` · ${board.name}`}{' '}
              <button
                type="button"
                class="quiet"
                onClick={() => {
                  const { doc: now } = store.get();
                  store.apply(o.steps.boardGone(says(board)), {
                    doc: { ...now, project: removeBoard(now.project, board.id) },
                    undo: 'commit',
                  });
                }}
              >
                {o.boards.takeAway(board.name ?? length(board.length_m))}
              </button>
            </li>
          ))}
        </ul>
      )}
      <AddBoard />
      {plan.boards !== null && (
        <>
          <h4>{o.boards.cuts}</h4>
          <ul>
            {plan.boards.bars.map((bar, i) => {
              const board = boards[bar.stock];
              const pieces = bar.cuts.map((c) => `${c.count} × ${length(plan.members[c.piece].length_m)}`);
              return (
                // ways of cutting have no name of their own
                <li key={`${bar.stock} ${i}`}>
                  <strong>
                    {board === undefined
                      ? `${bar.bars} × ${o.boards.bought}`
                      : o.boards.bar(bar.bars, length(board.length_m))}
                  </strong>{' '}
                  {[
                    ...pieces,
                    ...(board !== undefined && bar.left_m > 0.01 ? [o.boards.left(length(bar.left_m))] : []),
                  ].join(', ')}
                </li>
              );
            })}
          </ul>
        </>
      )}
      {plan.boards === null && (
        <p class="hint">
          {b.hold.missing}: {length(plan.boardsMissing_m)}
        </p>
      )}
    </section>
  );
}
