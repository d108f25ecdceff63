import { logChart } from '@sunlap/drawing/testDayPlots';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { useSide } from '../../compute/side';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { d } from '../../text/testday';
import { heatAxis } from './AnswerCard';
import { daysByDate, withoutDay } from './edits';
import { judgedProject } from './judged';
import { day, dayId, view } from './state';
import { answerSays } from './words';

/** Every test day, measured against expected, and each to be opened. */
export function LogView() {
  const { store } = useApp();
  const { ref, width } = useSize<HTMLDivElement>();
  const { project } = doc.value;
  const asked = judgedProject.value;
  const log = useSide(
    'testday-log',
    'testDayLog',
    project.testDays.length === 0 ? null : { project: asked },
    [asked],
  );
  const days = log.answer ?? [];
  const listed = daysByDate(project);
  const points = days.flatMap((one) =>
    one.measured_W === null || one.expected_W === null
      ? []
      : [
          {
            id: one.day,
            number: listed.findIndex((x) => x.id === one.day) + 1,
            measured: one.measured_W,
            expected: one.expected_W,
          },
        ],
  );
  const height = Math.min(440, Math.max(280, width * 0.8));
  const says = days.map((one) => `${one.at.replace('T', ' ')}: ${answerSays(one, units.value)}`).join(' ');
  return (
    <section class={`card log ${log.fresh ? '' : 'title-stale'}`} aria-labelledby="log-title">
      <h2 id="log-title">{d.log.title}</h2>
      {project.testDays.length === 0 && <p class="hint">{d.log.none}</p>}
      <div ref={ref}>
        {width > 80 && points.length > 0 && (
          <Picture
            items={
              logChart(points, {
                width,
                height,
                here: day.value?.id ?? null,
                line: d.log.line,
                words: d.log.axis,
                ...heatAxis(Math.max(...points.map((one) => Math.max(one.measured.high, one.expected.high)))),
              }).items
            }
            width={width}
            height={height}
            name="log"
            title={d.log.picture}
            says={says}
          />
        )}
      </div>
      <ol class="kept log-days">
        {listed.map((one, i) => {
          const judged = days.find((x) => x.day === one.id);
          return (
            <li key={one.id}>
              <span class="kept-name">
                <strong>
                  {i + 1} · {one.name ?? one.at.replace('T', ' ')}
                </strong>
                <span>{judged === undefined ? '' : answerSays(judged, units.value)}</span>
              </span>
              <span class="kept-acts">
                <button
                  type="button"
                  class="act act-quiet"
                  aria-label={d.log.open(one.at.replace('T', ' '))}
                  onClick={() => {
                    dayId.value = one.id;
                    view.value = 'measure';
                  }}
                >
                  {d.views.measure}
                </button>
                <button
                  type="button"
                  class="plain"
                  aria-label={`${d.remove} ${one.at.replace('T', ' ')}`}
                  onClick={() => {
                    const { doc: now } = store.get();
                    store.apply(d.steps.remove, {
                      doc: { ...now, project: withoutDay(now.project, one.id) },
                      undo: 'commit',
                    });
                  }}
                >
                  ×
                </button>
              </span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
