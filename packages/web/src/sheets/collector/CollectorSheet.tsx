import type { Notice } from '@sunlap/engine/numeric/notice';
import { useApp } from '../../app/context';
import { registerFields } from '../../app/fields';
import {
  answered,
  doc,
  focus,
  narrow,
  notices,
  reference,
  referenceStudy,
  study,
  tubeOpen,
  units,
  whyOpen,
} from '../../app/state';
import { Editor } from '../../parts/Editor';
import { later, useLater } from '../../parts/later';
import { Notes } from '../../parts/Notes';
import { TitleBlock } from '../../parts/TitleBlock';
import { Why } from '../../parts/Why';
import { t } from '../../text/catalogue';
import { collectorFields } from './fields';
import { PanelDrawing, scaleText } from './PanelDrawing';
import { collectorReadouts } from './readouts';

const SideViews = later(async () => (await import('./SideViews')).SideViews);
const TubeCard = later(async () => (await import('./TubeCard')).TubeCard);

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
  // what is not on the drawing comes behind the first answer
  const parts = useLater(() => import('./parts'), answered.value);
  const more = parts?.partRows(doc.value.project, scope, units.value) ?? [];
  const fields = [...drawn, ...more.flatMap((row) => row.fields.map((f) => f.field))];
  registerFields(fields);
  const now = study.value;
  const all = notices.value;
  const mine = all.filter(belongs);
  const readouts =
    now === null
      ? []
      : collectorReadouts(now, reference.value === null ? null : referenceStudy.value, scope, units.value);
  const why = useLater(() => import('./why-inputs'), whyOpen.value !== null);
  const inputs = now === null || why === null ? null : why.collectorInputs(now, units.value);
  return (
    <>
      <PanelDrawing fields={drawn} more={more} notices={mine} />
      {narrow.value ? null : <Notes notices={mine} fieldFor={fieldFor} />}
      {answered.value && <SideViews fields={fields} />}
      {narrow.value ? <Notes notices={mine} fieldFor={fieldFor} /> : null}
      <TitleBlock
        number={2}
        name={t.sheets.collector}
        scale={scaleText.value}
        readouts={readouts}
        converged={now?.flow.solver.converged ?? true}
      />
      {tubeOpen.value !== null && <TubeCard />}
      <Editor fields={fields} />
      <Why
        readouts={readouts}
        notices={all}
        text={(id, shared) => {
          const words = shared[id];
          return words === undefined ? null : { ...words, inputs: inputs?.[id] ?? [] };
        }}
      />
    </>
  );
}
