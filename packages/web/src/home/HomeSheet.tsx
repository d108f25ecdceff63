import { answersOf } from '@sunlap/project/start/answers';
import { poolSize } from '@sunlap/workbench/assembly/pool-size';
import { openPlugs } from '@sunlap/workbench/state/standing';
import { useApp } from '../app/context';
import { registerFields } from '../app/fields';
import { doc, fresh, latestFull, moving, notices, saveState, study, units } from '../app/state';
import { useSide } from '../compute/side';
import { doorOf, goOn } from '../doors/state';
import { CautionLine } from '../parts/CautionLine';
import { Counting } from '../parts/Counting';
import { standsStill } from '../parts/runs';
import { projectId } from '../projects/keeper';
import { mendFor } from '../shape/mend';
import { say, show } from '../shape/quantity';
import { t } from '../text/catalogue';
import { f } from '../text/first';
import { OwnPanel } from './OwnPanel';
import { QuickTest } from './QuickTest';
import { useReadouts } from './readouts';
import { Trade } from './Trade';

/** The three answers that matter, each with its band. */
function Three() {
  const system = units.value;
  const now = study.value;
  const why = now === null ? null : standsStill(now);
  const attained = now?.flow.result.attainable !== false;
  const heat = why === null ? (now?.heat?.result ?? null) : null;
  const full = latestFull.value;
  const whole = full !== null && 'study' in full ? full.study : null;
  const { readouts, fresh: settled } = useReadouts();
  const band = readouts?.heat_W.band ?? null;
  const perDay = attained ? (whole?.heat?.result.poolPerSunnyDay_K ?? null) : null;
  const dry = attained ? (now?.flow.result.collector.tubesWithoutWater ?? null) : null;
  const plugs = openPlugs(doc.value.project).filter((plug) => plug.tube !== undefined).length;
  const warm = perDay === null ? null : show(perDay, 'temperatureDifference', system);
  return (
    <dl class={`three ${settled ? '' : 'title-stale'}`} aria-busy={!settled}>
      <div class="three-heat">
        <dt>{f.home.heat}</dt>
        <dd>
          {heat === null ? (
            '–'
          ) : (
            <>
              <strong>
                <Counting value={heat.heat_W} write={(v) => show(v, 'heatRate', system).number} />
              </strong>{' '}
              {show(heat.heat_W, 'heatRate', system).unit}
              {system === 'us' && (
                <span class="three-also">{show(heat.heat_W, 'heatRate', 'metric').text}</span>
              )}
            </>
          )}
          <span class="three-sub">
            {why !== null
              ? why
              : band === null
                ? '\u00A0'
                : `${show(band.low, 'heatRate', system).number} – ${show(band.high, 'heatRate', system).number}`}
          </span>
        </dd>
      </div>
      <div>
        <dt>{f.home.perDay}</dt>
        <dd>
          <strong>{warm === null ? '–' : `+${warm.number}`}</strong> {warm?.unit}
          <span class="three-sub">{say(poolSize(doc.value.project.pool).volume_m3, 'volume', system)}</span>
        </dd>
      </div>
      <div>
        <dt>{f.home.dry}</dt>
        <dd>
          <strong>{dry === null ? '–' : dry === 0 ? f.home.none : dry}</strong>
          <span class="three-sub">
            {plugs > 0 && `${t.read.plugged(plugs)}, `}
            {t.chip.tubes(
              doc.value.project.collector.sections.flatMap((s) => s.banks).reduce((n, b) => n + b.count, 0),
            )}
          </span>
        </dd>
      </div>
    </dl>
  );
}

/** The one finding worth most, and the step that mends it. */
function Worst() {
  const { store } = useApp();
  const worst = notices.value.find((n) => n.severity !== 'info');
  if (worst === undefined)
    return <p class="hint home-none">{fresh.value ? f.home.nothing : f.home.looking}</p>;
  const mend = mendFor(worst, doc.value);
  return (
    <section class={`note note-${worst.severity} home-note`} aria-label={f.home.notice}>
      <p>
        <span class="note-severity">{t.notes.severity[worst.severity]}</span>
        <span class="note-what">{worst.message}</span> <span>{worst.remedy}</span>
      </p>
      {mend !== null && (
        <p class="note-acts">
          <button
            type="button"
            class="act"
            onClick={() => store.apply(mend.label, { doc: mend.run(doc.value), undo: 'commit' })}
          >
            {t.notes.mend}: {mend.label}
          </button>
        </p>
      )}
      <CautionLine note={worst} />
    </section>
  );
}

function NextStep({ door }: { door: 'plan' | 'have' }) {
  const { actions } = useApp();
  const { project, moment } = doc.value;
  const [first] = project.unsure ?? [];
  const begun = first !== undefined || (door === 'have' && project.testDays.length === 0);
  // what is not known yet comes before anything that has to be reckoned
  const ask =
    begun || moving.value || !fresh.value
      ? null
      : { project, moment, as: door === 'have' ? ('owner' as const) : ('planner' as const) };
  const reckoned = useSide('next', 'next', ask, [ask === null ? null : latestFull.value, door]);
  const step =
    first !== undefined ? f.steps[first] : begun ? f.steps.have : (reckoned.answer ?? f.steps.wait);
  return (
    <section class="home-next">
      <h2>{f.home.next}</h2>
      <p>{step}</p>
      <p class="note-acts">
        <button type="button" class="act" onClick={() => actions.saveFile()}>
          {f.home.save}
        </button>
        <button
          type="button"
          class="act act-quiet"
          onClick={() => goOn({ project: projectId.peek(), door, step: 0 })}
          hidden={answersOf(doc.value.project) === null}
        >
          {f.home.again}
        </button>
      </p>
      <p class="hint">{saveState.value === 'saved' ? f.home.saved : t.saved[saveState.value]}</p>
    </section>
  );
}

/** The home screen: the person's own panel, three answers, one notice, the next cheap step. */
export default function HomeSheet() {
  registerFields([]);
  const { moment, project } = doc.value;
  const door = project.testDays.length > 0 || project.asBuilt.length > 0 ? 'have' : doorOf(projectId.value);
  return (
    <div class="home">
      <div class="home-panel">
        <OwnPanel />
      </div>
      <div class="home-side">
        <Three />
        <p class="hint home-moment">
          {t.options[moment.sky]}, {moment.at.replace('T', ' ')}
        </p>
        {door === 'plan' && <Trade />}
        <Worst />
        {door === 'have' && <QuickTest />}
        <NextStep door={door} />
      </div>
    </div>
  );
}
