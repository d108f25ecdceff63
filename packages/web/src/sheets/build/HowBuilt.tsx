import { b } from '../../text/build';
import { how, setHow } from './state';

/** What the file does not say of the building: which parts are counted, how pipe is joined. */
export function HowBuilt() {
  const now = how.value;
  return (
    <section class="shop-group how" aria-labelledby="how-title">
      <h3 id="how-title">{b.shop.how}</h3>
      <label class="row">
        <span>{b.shop.scope}</span>
        <select
          value={now.scope}
          onChange={(e) => setHow({ scope: e.currentTarget.value === 'all' ? 'all' : 'heater' })}
        >
          <option value="heater">{b.shop.scopes.heater}</option>
          <option value="all">{b.shop.scopes.all}</option>
        </select>
      </label>
      <label class="row">
        <span>{b.shop.join}</span>
        <select
          value={now.join}
          onChange={(e) => {
            const { value } = e.currentTarget;
            setHow({ join: value === 'bell' || value === 'none' ? value : 'coupling' });
          }}
        >
          <option value="coupling">{b.shop.joins.coupling}</option>
          <option value="bell">{b.shop.joins.bell}</option>
          <option value="none">{b.shop.joins.none}</option>
        </select>
      </label>
      <label class="tick">
        <input type="checkbox" checked={now.unions} onChange={() => setHow({ unions: !now.unions })} />
        {b.shop.unions}
      </label>
      <label class="tick">
        <input type="checkbox" checked={now.primer} onChange={() => setHow({ primer: !now.primer })} />
        {b.shop.primer}
      </label>
      <p class="hint">{b.shop.primerHint}</p>
    </section>
  );
}
