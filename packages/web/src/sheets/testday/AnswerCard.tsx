import { agreementChart } from '@sunlap/drawing/testDayPlots';
import { units } from '../../app/state';
import type { SideAnswer } from '../../compute/side';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { show } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { d } from '../../text/testday';
import { answerSays, percent } from './words';

/** The unit in which heat is shown, as an axis wants it. */
export function heatAxis(of_W: number): { unit_W: number; unit: string } {
  if (units.value === 'metric') return of_W >= 1000 ? { unit_W: 1000, unit: 'kW' } : { unit_W: 1, unit: 'W' };
  const perBtu = 0.293071;
  return of_W / perBtu >= 5000
    ? { unit_W: perBtu * 1000, unit: 'kBtu/h' }
    : { unit_W: perBtu, unit: 'Btu/h' };
}

/** Interval against band, what is most in doubt, and what to do about it. */
export function AnswerCard({ judged }: { judged: SideAnswer<'testDay'> }) {
  const { ref, width } = useSize<HTMLDivElement>();
  const { answer, error, fresh } = judged;
  const system = units.value;
  const measured = answer?.measured_W ?? null;
  const expected = answer?.expected_W ?? null;
  const [doubt] = answer?.contributions ?? [];
  const [best, ...others] = answer?.advice ?? [];
  const verdict = answer === null || answer.verdict === null ? null : answer.words;
  const says = answer === null ? d.answer.none : answerSays(answer, system);
  const notices = (answer?.notices ?? []).filter((n) => n.severity !== 'info');
  return (
    <section
      class={`card answer-card ${fresh ? '' : 'title-stale'}`}
      aria-labelledby="answer-title"
      aria-busy={!fresh}
    >
      <h2 id="answer-title">{d.answer.title}</h2>
      {error !== null && (
        <p role="alert">
          {d.answer.wrong}: {error}
        </p>
      )}
      {verdict !== null && <p class={`verdict verdict-${answer?.verdict}`}>{verdict}</p>}
      <p class="answer-says" aria-live="polite">
        {says}
      </p>
      <div ref={ref}>
        {width > 80 && (measured !== null || expected !== null) && (
          <Picture
            items={
              agreementChart(measured, expected, {
                width,
                words: { measured: d.answer.measured, expected: d.answer.expected },
                ...heatAxis(Math.max(measured?.high ?? 0, expected?.high ?? 0)),
              }).items
            }
            width={width}
            height={128}
            name="agreement"
            title={d.answer.title}
            says={says}
          />
        )}
      </div>
      {doubt !== undefined && (
        <div class="doubt">
          <p>
            <strong>{d.answer.doubt(capital(doubt.label), percent(doubt.share))}</strong>
            {best !== undefined && (
              <>
                {' '}
                {best.message} {d.answer.shrinks(percent(best.shrink))}
              </>
            )}
          </p>
        </div>
      )}
      {notices.map((n) => (
        <p key={n.code + n.path} class="answer-note">
          <span class="note-severity">{t.notes.severity[n.severity]}</span> {n.message} {n.remedy}
        </p>
      ))}
      {answer !== null && answer.contributions.length > 0 && (
        <details class="more">
          <summary>{d.answer.all}</summary>
          <ul class="doubts">
            {answer.contributions.slice(0, 8).map((c) => (
              <li key={c.label}>
                <span>{c.label}</span>
                <svg width="100%" height="8" aria-hidden="true">
                  <rect class="doubt-bar" width={`${Math.max(0.5, c.share * 100)}%`} height="8" />
                </svg>
                <span class="run-aside">{percent(c.share)}</span>
              </li>
            ))}
          </ul>
          {others.length > 0 && (
            <>
              <h3>{d.answer.more}</h3>
              <ul class="doubts-advice">
                {others.map((a) => (
                  <li key={a.step}>
                    {a.message}{' '}
                    <span class="hint">
                      {d.answer.shrinks(percent(a.shrink))} ({d.answer[a.effort]})
                    </span>
                  </li>
                ))}
              </ul>
            </>
          )}
        </details>
      )}
      {answer?.state != null && <p class="hint">{d.answer.state(answer.state)}</p>}
    </section>
  );
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** The bar at the foot of a phone: heat, its half-width, what was expected. */
export function AnswerBar({ judged }: { judged: SideAnswer<'testDay'> }) {
  const { answer, fresh } = judged;
  const system = units.value;
  const m = answer?.measured_W ?? null;
  const e = answer?.expected_W ?? null;
  const part = (w: number | null) => (w === null ? null : show(w, 'heatRate', system));
  const heat = part(m?.value ?? null);
  const half = part(m === null ? null : (m.high - m.low) / 2);
  return (
    <dl class={`answer-bar ${fresh ? '' : 'title-stale'}`}>
      <div>
        <dt>{d.answer.measured}</dt>
        <dd>
          <strong>{heat?.number ?? '–'}</strong> {heat?.unit}
          <span class="three-sub">
            {half === null
              ? '\u00A0'
              : `${d.answer.plusMinus} ${half.number}${half.unit === heat?.unit ? '' : ` ${half.unit}`}`}
          </span>
        </dd>
      </div>
      <div>
        <dt>{d.answer.expected}</dt>
        <dd>
          <strong>{part(e?.value ?? null)?.number ?? '–'}</strong> {part(e?.value ?? null)?.unit}
          <span class="three-sub">
            {e === null ? '\u00A0' : `${part(e.low)?.number} – ${part(e.high)?.number}`}
          </span>
        </dd>
      </div>
    </dl>
  );
}
