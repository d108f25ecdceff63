import { registerFields } from '../../app/fields';
import { doc, narrow, notices, reference, referenceStudy, study, units } from '../../app/state';
import { Editor } from '../../parts/Editor';
import { Notes } from '../../parts/Notes';
import { TitleBlock } from '../../parts/TitleBlock';
import { Why } from '../../parts/Why';
import { t } from '../../text/catalogue';
import { Controls } from './Controls';
import { fieldsAt, loopFields } from './fields';
import { LoopDrawing } from './LoopDrawing';
import { moreRows } from './more';
import { PumpPlot } from './PumpPlot';
import { loopInputs, loopReadouts } from './readouts';
import { StartFacts } from './StartFacts';

export default function LoopSheet() {
  const { project } = doc.value;
  const u = units.value;
  const now = study.value;
  const more = moreRows(
    project,
    u,
    now === null
      ? null
      : {
          flow_m3s: now.flow.result.flow_m3s,
          head_m: now.flow.result.pump.head_m,
          curve: now.flow.result.loop.pumpCurve,
        },
  );
  const drawn = loopFields(project, u);
  const fields = [...drawn, ...more.flatMap((row) => row.fields.map((f) => f.field))];
  registerFields(fields);
  const all = notices.value;
  const mine = all.filter(
    (n) =>
      n.path === '' ||
      n.path.startsWith('/loop') ||
      n.path.startsWith('/pool') ||
      n.path.startsWith('/collector/plumbing'),
  );
  const fieldFor = (path: string): string | null =>
    fieldsAt(fields, path)[0]?.id ??
    (path === '' ? null : (fields.find((f) => f.id.startsWith(`${path}/`))?.id ?? null));
  const readouts =
    now === null ? [] : loopReadouts(now, reference.value === null ? null : referenceStudy.value, u);
  const inputs = now === null ? {} : loopInputs(now, u);
  return (
    <>
      <LoopDrawing fields={drawn} more={more} notices={mine} />
      {narrow.value ? null : <Notes notices={mine} fieldFor={fieldFor} />}
      <section class="plot-side">
        <div class="plot-column">
          <PumpPlot />
          <StartFacts />
        </div>
        <Controls />
      </section>
      {narrow.value ? <Notes notices={mine} fieldFor={fieldFor} /> : null}
      <TitleBlock
        number={3}
        name={t.sheets.loop}
        scale={t.read.seven}
        readouts={readouts}
        converged={now?.flow.solver.converged ?? true}
      />
      <Editor fields={fields} />
      <Why
        readouts={readouts}
        notices={all}
        text={(id, shared) => {
          const words = shared[id === 'head' ? 'flow' : id];
          return words === undefined ? null : { ...words, inputs: inputs[id] ?? [] };
        }}
      />
    </>
  );
}
