import { USUAL_BUILD } from '@sunlap/workbench/build/options';
import { useApp } from '../../app/context';
import { doc } from '../../app/state';
import { b } from '../../text/build';
import { o } from '../../text/own';
import { changeHow, HowFigure } from './HowFigure';
import { howOf } from './how';

const SCOPES = ['heater', 'all'] as const;
const JOINS = ['coupling', 'bell', 'none'] as const;

/** Which parts are counted, how pipe is joined, how many spares: kept in the project. */
export function HowBuilt() {
  const { store } = useApp();
  const now = howOf(doc.value.project);
  const yesNo = (on: boolean) => (on ? b.hold.yes : b.hold.no);
  return (
    <section class="shop-group how" aria-labelledby="how-title">
      <h3 id="how-title">{b.shop.how}</h3>
      <label class="row">
        <span>{b.shop.scope}</span>
        <select
          value={now.scope}
          onChange={(e) => {
            const scope = SCOPES.find((s) => s === e.currentTarget.value) ?? 'heater';
            changeHow(store, o.steps.how(b.shop.scope, b.shop.scopes[scope]), { scope });
          }}
        >
          {SCOPES.map((s) => (
            <option key={s} value={s}>
              {b.shop.scopes[s]}
            </option>
          ))}
        </select>
      </label>
      <label class="row">
        <span>{b.shop.join}</span>
        <select
          value={now.join}
          onChange={(e) => {
            const join = JOINS.find((j) => j === e.currentTarget.value) ?? 'coupling';
            changeHow(store, o.steps.how(b.shop.join, b.shop.joins[join]), { join });
          }}
        >
          {JOINS.map((j) => (
            <option key={j} value={j}>
              {b.shop.joins[j]}
            </option>
          ))}
        </select>
      </label>
      {(['unions', 'primer'] as const).map((key) => (
        <label key={key} class="tick">
          <input
            type="checkbox"
            checked={now[key]}
            onChange={() =>
              changeHow(store, o.steps.how(b.shop[key], yesNo(!now[key])), { [key]: !now[key] })
            }
          />
          {b.shop[key]}
        </label>
      ))}
      <p class="hint">{b.shop.primerHint}</p>
      <div class="figures">
        <HowFigure
          field="spares"
          label={o.shop.spares}
          kind="ratio"
          usual={USUAL_BUILD.spares}
          min={0}
          max={1}
        />
        <HowFigure
          field="cementWaste"
          label={o.shop.waste}
          kind="ratio"
          usual={USUAL_BUILD.cementWaste}
          min={0}
          max={2}
        />
      </div>
    </section>
  );
}
