import type { Notice } from '@sunlap/engine/numeric/notice';
import { useApp } from '../../app/context';
import { registerFields } from '../../app/fields';
import { doc, focus, narrow, notices, reference, referenceStudy, study, units } from '../../app/state';
import { Editor } from '../../parts/Editor';
import { Notes } from '../../parts/Notes';
import { TitleBlock } from '../../parts/TitleBlock';
import { Why } from '../../parts/Why';
import { t } from '../../text/catalogue';
import { WHY } from '../../text/why';
import { collectorFields } from './fields';
import { PanelDrawing, scaleText } from './PanelDrawing';
import { partRows } from './parts';
import { collectorInputs, collectorReadouts } from './readouts';
import { SideViews } from './SideViews';
import { TubeCard } from './TubeCard';

/** Field of this sheet that a place in the file belongs to. */
function fieldFor(path: string, code: string): string | null {
  const known: Record<string, string> = {
    'does-not-drain': 'fall',
    'air-holds-in-tubes': 'fall',
    'header-too-small': 'header',
    'header-marginal': 'header',
    'headers-overlap': 'header',
    'other-end-shares-better': 'header',
    'tubes-run-backwards': 'header',
    'supports-touch': 'spacing',
    'supports-too-far-apart': 'spacing',
    'pitch-below-tees': 'pitch',
    'tubes-overlap': 'pitch',
    'tubes-shade-each-other': 'pitch',
    'sections-share-unevenly': 'joining',
    'section-never-fills': 'lowestHeight',
    'section-needs-faster-start': 'joining',
    'panel-outside-ground': 'length',
    'dry-too-hot': 'backing',
    'first-fill-traps-air': '/collector/taps#add',
  };
  if (known[code] !== undefined) return known[code];
  if (path.startsWith('/collector/placement')) return path.split('/')[3]?.split('_')[0] ?? 'tilt';
  if (path.startsWith('/collector/surface')) return 'colour';
  if (/^\/collector\/taps\/\d+$/.test(path)) return `${path}/purpose`;
  return null;
}

const belongs = (n: Notice) => n.path === '' || n.path.startsWith('/collector') || n.path.startsWith('/site');

export default function CollectorSheet() {
  useApp();
  const scope =
    focus.value !== null && doc.value.project.collector.sections.some((s) => s.id === focus.value)
      ? focus.value
      : null;
  const drawn = collectorFields(doc.value, scope, units.value);
  const more = partRows(doc.value.project, scope, units.value);
  const fields = [...drawn, ...more.flatMap((row) => row.fields.map((f) => f.field))];
  registerFields(fields);
  const now = study.value;
  const all = notices.value;
  const mine = all.filter(belongs);
  const readouts =
    now === null
      ? []
      : collectorReadouts(now, reference.value === null ? null : referenceStudy.value, scope, units.value);
  const inputs = now === null ? {} : collectorInputs(now, units.value);
  return (
    <>
      <PanelDrawing fields={drawn} more={more} notices={mine} />
      {narrow.value ? null : <Notes notices={mine} fieldFor={fieldFor} />}
      <SideViews fields={fields} />
      {narrow.value ? <Notes notices={mine} fieldFor={fieldFor} /> : null}
      <TitleBlock
        number={2}
        name={t.sheets.collector}
        scale={scaleText.value}
        readouts={readouts}
        converged={now?.flow.solver.converged ?? true}
      />
      <TubeCard />
      <Editor fields={fields} />
      <Why
        readouts={readouts}
        notices={all}
        text={(id) => {
          const words = WHY[id];
          return words === undefined ? null : { ...words, inputs: inputs[id] ?? [] };
        }}
      />
    </>
  );
}
