import type { ComponentType } from 'preact';
import { useEffect } from 'preact/hooks';
import { useApp } from '../../app/context';
import { registerFields } from '../../app/fields';
import { doc, reference, notices as studied, units } from '../../app/state';
import { Editor } from '../../parts/Editor';
import { Notes } from '../../parts/Notes';
import { TitleBlock } from '../../parts/TitleBlock';
import { Why } from '../../parts/Why';
import { rank } from '../../shape/rank';
import { b } from '../../text/build';
import { t } from '../../text/catalogue';
import { collectorFields } from '../collector/fields';
import { CutsView } from './CutsView';
import { DrawingsView } from './DrawingsView';
import { LifeCardsView } from './LifeCardsView';
import { MoneyView } from './MoneyView';
import type { Built } from './protocol';
import { buildReadouts, buildWhy } from './readouts';
import { ShopView } from './ShopView';
import { SupportsView } from './SupportsView';
import {
  adoptKept,
  awaitsHeat,
  buildBusy,
  buildError,
  builtHeld,
  builtNow,
  useBuilt,
  VIEWS,
  type View,
  view,
} from './state';
import { Take } from './Take';
import { WorkView } from './WorkView';

const PAGES: Record<View, ComponentType<{ built: Built }>> = {
  drawings: DrawingsView,
  parts: ShopView,
  money: MoneyView,
  cuts: CutsView,
  supports: SupportsView,
  work: WorkView,
  cards: LifeCardsView,
};

/** Findings of the studies that stop a build or touch what holds it up. */
const BUILD_CODES = new Set([
  'pitch-below-tees',
  'tubes-overlap',
  'headers-overlap',
  'supports-touch',
  'supports-too-far-apart',
  'panel-outside-ground',
  'does-not-drain',
]);

/** Field of the panel that mends a finding. */
function fieldFor(path: string, code: string): string | null {
  if (/pitch|overlap/.test(code) || /pitch_m$/.test(path)) return 'pitch';
  if (/support/.test(code) || path.startsWith('/collector/supports')) return 'spacing';
  if (code === 'build-longer-than-stock' || code === 'build-no-coupling' || code === 'panel-outside-ground')
    return 'length';
  if (code === 'does-not-drain') return 'fall';
  return null;
}

/** Drawings, parts, cuts, supports, work and cards of this design. */
export default function BuildSheet() {
  const { store } = useApp();
  useEffect(() => adoptKept(store), []);
  useBuilt();
  const u = units.value;
  const now = builtNow.value;
  const fields = collectorFields(doc.value, null, u);
  registerFields(fields);
  const busy = buildBusy();
  const Page = PAGES[view.value];
  const found =
    now === null ? [] : rank([...now.notices, ...studied.value.filter((n) => BUILD_CODES.has(n.code))]);
  const readouts =
    now === null
      ? []
      : buildReadouts(
          now.values,
          reference.value === null ? null : (builtHeld.value?.values ?? null),
          u,
          awaitsHeat(),
        );
  return (
    <>
      <div class={`build build-${view.value}`} aria-busy={busy}>
        <header class="build-head no-print">
          <fieldset class="segments build-views" aria-label={b.viewsLabel}>
            {VIEWS.map((v) => (
              <button
                key={v}
                type="button"
                aria-pressed={view.value === v}
                onClick={() => {
                  view.value = v;
                }}
              >
                {b.views[v]}
              </button>
            ))}
          </fieldset>
          <Take />
        </header>
        {buildError.value !== null && (
          <p class="build-stop" role="alert">
            {b.failed(buildError.value)}
          </p>
        )}
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a long page is moved with the arrow keys */}
        <section class="build-body" tabIndex={0} aria-label={b.views[view.value]}>
          {now === null ? <p class="loading">{b.working}</p> : <Page built={now} />}
        </section>
      </div>
      <Notes notices={found} fieldFor={fieldFor} />
      <TitleBlock number={7} name={t.sheets.build} scale={b.scale} readouts={readouts} converged />
      <Editor fields={fields} />
      {now !== null && <Why readouts={readouts} notices={found} text={buildWhy(now.values, u)} />}
    </>
  );
}
