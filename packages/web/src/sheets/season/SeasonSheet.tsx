import { registerFields } from '../../app/fields';
import { doc, units } from '../../app/state';
import { Chip } from '../../parts/Chip';
import { Editor } from '../../parts/Editor';
import { Notes } from '../../parts/Notes';
import { TitleBlock } from '../../parts/TitleBlock';
import { Why } from '../../parts/Why';
import { t } from '../../text/catalogue';
import { s } from '../../text/season';
import { Bands, Months } from './Charts';
import { ClimatePick } from './Climate';
import { ClimateTable } from './ClimateTable';
import { Findings } from './Findings';
import { seasonFields, WORDS } from './fields';
import { Habits } from './Habits';
import { RunHours } from './RunHours';
import { seasonReadouts } from './readouts';
import { answer, failure, heldAnswer, isFresh, progress, stop, stopped, study, useSeason } from './run';

function Progress() {
  const { project } = doc.value;
  const now = progress.value;
  const a = answer.value;
  if (now !== null) {
    const left_s = now.share > 0.05 ? ((performance.now() - now.since) / 1000) * (1 / now.share - 1) : null;
    return (
      <p class="season-progress">
        <progress max={1} value={now.share} aria-label={s.progress('', '')} />
        <span>
          {s.progress(
            `${Math.round(now.share * 100)} %`,
            left_s === null ? '' : s.left(String(Math.ceil(left_s))),
          )}
        </span>
        <button type="button" class="act act-quiet" onClick={stop}>
          {s.stop}
        </button>
      </p>
    );
  }
  if (a === null || a.answer.complete) return null;
  return (
    <p class="season-progress">
      <span role="status">{stopped.value ? s.stopped : ''}</span>
      <button type="button" class="act act-quiet" onClick={() => study(project)}>
        {s.again}
      </button>
    </p>
  );
}

export default function SeasonSheet() {
  useSeason();
  const { project } = doc.value;
  const u = units.value;
  const fields = seasonFields(project);
  registerFields(fields);
  const now = answer.value;
  const held = heldAnswer.value;
  const fresh = isFresh.value;
  const readouts = now === null ? [] : seasonReadouts(now.answer, held, u);
  const notices = now?.answer.notices ?? [];
  const fieldFor = (path: string) =>
    path === '' ? null : (fields.find((f) => f.path !== undefined && path.startsWith(f.path))?.id ?? null);
  return (
    <>
      <section
        class={`drawing season-drawing ${fresh ? '' : 'season-stale'}`}
        aria-label={s.picture}
        data-fresh={fresh}
      >
        <div class="drawing-top">
          {fields.map((f) => (
            <Chip key={f.id} field={f} word={WORDS[f.id]} />
          ))}
        </div>
        {failure.value !== null && (
          <p class="season-failed" role="alert">
            {s.failed}: {failure.value}
          </p>
        )}
        {now === null ? (
          <p class="loading">{s.working}</p>
        ) : (
          <Bands r={now.answer.result} held={held?.result.days ?? null} />
        )}
      </section>
      <section class="season-side">
        <Progress />
        <ClimatePick />
        <details class="season-fold" data-fold="months">
          <summary>{s.table12.fold}</summary>
          {project.season?.climate?.kind === 'file' ? (
            <p class="hint">{s.table12.ofFile}</p>
          ) : (
            <ClimateTable />
          )}
        </details>
        <details class="season-fold" data-fold="habits">
          <summary>{s.habits.fold}</summary>
          <Habits />
        </details>
        {now !== null && (
          <>
            <div class="season-pair">
              <Months r={now.answer.result} />
              <RunHours r={now.answer.result} />
            </div>
            <Findings r={now.answer.result} />
          </>
        )}
      </section>
      <Notes notices={notices} fieldFor={fieldFor} />
      <TitleBlock
        number={4}
        name={t.sheets.season}
        scale={now?.answer.result.place ?? ''}
        readouts={readouts}
        converged={now?.answer.solver.converged ?? true}
      />
      <Editor fields={fields} />
      <Why
        readouts={readouts}
        notices={notices}
        text={(id) => ({
          equation: id === 'saved' ? s.why.money : s.why.year,
          source: s.why.source,
          inputs: [
            ...(now?.answer.result.money?.inputs ?? []).map((i): [string, string] => ['', i]),
            [s.why.balance, (now?.answer.result.balance.residual ?? 0).toExponential(1)],
          ],
          touches: ['season', 'climate', 'pool'],
        })}
      />
    </>
  );
}
