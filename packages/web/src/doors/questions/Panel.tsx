import { doc, units } from '../../app/state';
import { OwnPanel } from '../../home/OwnPanel';
import { stickOf } from '../../home/sticks';
import { Stepper } from '../../parts/Stepper';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { f } from '../../text/first';
import type { QuestionProps } from './props';

export function Panel({ answers: a, put }: QuestionProps) {
  return (
    <>
      <OwnPanel />
      <div class="ask-row">
        <Stepper
          label={f.panel.passes}
          less={f.panel.fewer}
          more={f.panel.more}
          value={a.passes}
          min={1}
          max={8}
          write={t.chip.passes}
          set={(passes) => put(t.steps.passes(String(passes)), { passes })}
        />
        <p class="hint">
          {f.panel.hint} {f.panel.stick(say(stickOf(doc.value.project, a.tubePipe), 'length', units.value))}.
        </p>
      </div>
    </>
  );
}
