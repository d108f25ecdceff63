import { useState } from 'preact/hooks';
import { b } from '../../text/build';
import { saveCsv, saveReport } from './export';

/** Files that leave the app: made when asked for. */
export function Take() {
  const [state, setState] = useState<'idle' | 'working' | 'failed'>('idle');
  const run = (make: () => Promise<void>) => () => {
    setState('working');
    make().then(
      () => setState('idle'),
      () => setState('failed'),
    );
  };
  return (
    <details class="take">
      <summary>{b.take.title}</summary>
      <div class="take-in">
        <button type="button" class="act" disabled={state === 'working'} onClick={run(saveReport)}>
          {b.take.report}
        </button>
        <p class="hint">{b.take.reportHint}</p>
        <button
          type="button"
          class="act act-quiet"
          disabled={state === 'working'}
          onClick={run(() => saveCsv('parts'))}
        >
          {b.take.parts}
        </button>
        <button
          type="button"
          class="act act-quiet"
          disabled={state === 'working'}
          onClick={run(() => saveCsv('cuts'))}
        >
          {b.take.cuts}
        </button>
        <p class="hint" role="status">
          {state === 'working' ? b.take.working : state === 'failed' ? b.take.failed : ''}
        </p>
      </div>
    </details>
  );
}
