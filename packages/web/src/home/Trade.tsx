import type { Project } from '@sunlap/project/schema/project';
import { useApp } from '../app/context';
import { doc, reference, storeState, units } from '../app/state';
import { useSide } from '../compute/side';
import { setPasses } from '../edits/panel';
import { Stepper } from '../parts/Stepper';
import { difference } from '../shape/quantity';
import { t } from '../text/catalogue';
import { f } from '../text/first';

const inMoney = (value: number, currency: string): string =>
  new Intl.NumberFormat(undefined, {
    style: 'currency',
    currency,
    maximumFractionDigits: 0,
    useGrouping: 'min2',
  }).format(value);

/** The panel before what is being pulled, or before the last step where that changed it. */
function before(): { name: string; project: Project } | null {
  const { drag, past } = storeState.value;
  const step = drag ?? past[past.length - 1];
  if (step === undefined || step.doc.project.collector === doc.value.project.collector) return null;
  return { name: step.name, project: step.doc.project };
}

/** What one pull or step does to heat, glued joints and cost, together. */
function LastStep({ currency }: { currency: string }) {
  const from = before();
  const { project, moment } = doc.value;
  const step = useSide(
    'home-step',
    'step',
    from === null ? null : { before: from.project, after: project, moment },
    [from?.project, project.collector, moment],
  );
  if (from === null) return null;
  const d = step.answer;
  const signed = (value: number, text: (v: number) => string): string =>
    Math.round(value) === 0 ? f.home.same : `${value > 0 ? '+' : '−'}${text(Math.abs(value))}`;
  const rows: [string, string][] = [
    [f.home.stepHeat, d === null ? '…' : difference(d.heat_W, 'heatRate', units.value)],
    [f.home.joints, d === null ? '…' : signed(d.gluedJoints, (v) => String(Math.round(v)))],
    [f.home.stepCost, d === null ? '…' : signed(d.cost, (v) => inMoney(v, currency))],
  ];
  return (
    <section class={`trade-step ${step.fresh ? '' : 'title-stale'}`} aria-label={f.home.step}>
      <h3>{from.name}</h3>
      <dl aria-live="polite" aria-busy={!step.fresh}>
        {rows.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

/** What pulling costs and brings, beside each other. */
export function Trade() {
  const { store, actions } = useApp();
  const { project } = doc.value;
  const built = useSide('home-build', 'build', { project }, [
    project.collector,
    project.prices,
    project.stock,
    project.loop,
    project.build,
  ]);
  const passes = project.collector.sections[0].banks.length;
  const held = reference.value !== null;
  const cost = built.answer;
  return (
    <section class="trade" aria-label={f.home.change}>
      <Stepper
        label={f.panel.passes}
        less={f.panel.fewer}
        more={f.panel.more}
        value={passes}
        min={1}
        max={8}
        write={t.chip.passes}
        set={(n) => {
          const { doc: d } = store.get();
          store.apply(t.steps.passes(String(n)), {
            doc: { ...d, project: { ...d.project, collector: setPasses(d.project.collector, null, n) } },
            undo: 'commit',
          });
        }}
      />
      <dl class={`trade-two ${built.fresh ? '' : 'title-stale'}`}>
        <div>
          <dt>{f.home.joints}</dt>
          <dd>{cost === null ? '–' : cost.gluedJoints}</dd>
        </div>
        <div>
          <dt>{f.home.cost}</dt>
          <dd>
            {cost === null ? '–' : inMoney(cost.cost, cost.currency)}
            {project.prices === undefined && <small> {f.home.demo}</small>}
          </dd>
        </div>
      </dl>
      <LastStep currency={cost?.currency ?? 'USD'} />
      {!held && (
        <button type="button" class="quiet" onClick={() => actions.holdReference()}>
          {f.home.hold}
        </button>
      )}
    </section>
  );
}
