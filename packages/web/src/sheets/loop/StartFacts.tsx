import { startWorking, study, units } from '../../app/state';
import { say } from '../../shape/quantity';
import { editorText } from '../../text/editor';
import { p } from '../../text/pieces';

/** What it takes to fill from empty and to keep running; it is found after everything else. */
export function StartFacts() {
  const now = study.value;
  const start = now?.start?.start;
  const working = start === undefined || startWorking.value;
  const percent = (v: number | null) => (v === null ? p.start.never : `${Math.ceil(v * 100 - 1e-9)} %`);
  const facts: [string, string | null][] = [
    [p.start.starts, start === undefined ? null : percent(start.leastStartSpeed)],
    [p.start.runs, start === undefined ? null : percent(start.leastRunSpeed)],
    [
      p.start.fills,
      start === undefined
        ? null
        : start.leastFlowAllTubes_m3s === null
          ? p.start.noFlow
          : say(start.leastFlowAllTubes_m3s, 'flow', units.value),
    ],
  ];
  if (now === null || now.flow.result.pump.speed <= 0) return null;
  return (
    <dl class="start-facts" aria-busy={working}>
      {facts.map(([what, value]) => (
        <div key={what}>
          <dt>{what}</dt>
          <dd>{value === null || working ? editorText.working : value}</dd>
        </div>
      ))}
    </dl>
  );
}
