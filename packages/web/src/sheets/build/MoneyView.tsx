import { demoPricesOf } from '@sunlap/data/prices';
import type { Prices } from '@sunlap/project/schema/stock';
import type { MoneyOfYear } from '@sunlap/workbench/build/money';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { b } from '../../text/build';
import { o } from '../../text/own';
import { today } from './export';
import { Figure } from './Figure';
import { type PricesChange, setPrices } from './money-edits';
import type { Built } from './protocol';
import { money } from './readouts';
import { awaitsHeat, runYear, yearMoney, yearState } from './state';
import { Facts } from './Tables';

const KINDS = ['none', 'gas', 'condensingGas', 'resistance', 'heatPump'] as const;
type Kind = NonNullable<Prices['replacedHeat']>['kind'];

/** Heat in a US therm, and in what other fuel and power is priced by here [kWh]. */
const THERM_kWh = 29.3071;
const LOT_kWh = 100;

/** What the person pays for heat and power. */
function YourFigures({ currency }: { currency: string }) {
  const { store } = useApp();
  const { prices } = doc.value.project;
  const kind: Kind = prices?.replacedHeat?.kind ?? 'none';
  const gas = kind === 'gas' || kind === 'condensingGas';
  const lot_kWh = gas && units.value === 'us' ? THERM_kWh : LOT_kWh;
  const fuelLabel = lot_kWh === THERM_kWh ? o.money.therm(currency) : o.money.fuel(currency);
  const fuel = prices?.replacedHeat?.price_perkWh;
  const demoPower = demoPricesOf('electricity')[0]?.price;
  const apply = (name: string, change: PricesChange): void => {
    const { doc: now } = store.get();
    store.apply(name, { doc: { ...now, project: setPrices(now.project, change, today()) }, undo: 'commit' });
  };
  return (
    <section class="assume" aria-labelledby="money-yours">
      <h3 id="money-yours">{o.money.yours}</h3>
      <div class="figures">
        <label class="row">
          <span>{o.money.replaces}</span>
          <select
            value={kind}
            onChange={(event) => {
              const next = KINDS.find((k) => k === event.currentTarget.value) ?? 'none';
              apply(o.steps.money(o.money.replaces, o.money.kinds[next]), { kind: next });
            }}
          >
            {KINDS.map((k) => (
              <option key={k} value={k}>
                {o.money.kinds[k]}
              </option>
            ))}
          </select>
        </label>
        {kind !== 'none' && (
          <Figure
            key={fuelLabel}
            label={fuelLabel}
            kind="money"
            value={fuel === undefined || fuel === 0 ? null : fuel * lot_kWh}
            min={0}
            max={10_000}
            set={(v) =>
              apply(o.steps.money(fuelLabel, v === null ? '0' : v.toFixed(2)), {
                price_perkWh: v === null ? 0 : v / lot_kWh,
              })
            }
          />
        )}
        <Figure
          label={o.money.electricity(currency)}
          kind="money"
          value={prices?.electricity_perkWh === undefined ? null : prices.electricity_perkWh * LOT_kWh}
          min={0}
          max={10_000}
          {...(demoPower === undefined
            ? {}
            : { placeholder: `${(demoPower * LOT_kWh).toFixed(2)} ${b.shop.demoTag}` })}
          set={(v) =>
            apply(o.steps.money(o.money.electricity(currency), v === null ? '–' : v.toFixed(2)), {
              electricity_perkWh: v === null ? null : v / LOT_kWh,
            })
          }
        />
      </div>
    </section>
  );
}

/** One figure where both ends are shown alike. */
const span = (low: string, high: string): string => (low === high ? low : o.money.range(low, high));

/** What a year brings, each with the width that its inputs leave. */
function yearFacts(year: MoneyOfYear, years: number, currency: string): [string, string][] {
  const whole = (v: number): string =>
    Math.round(v).toLocaleString('en', { useGrouping: 'min2' }).replace('-', '−');
  const one = (v: number): string => v.toFixed(1);
  const pay = year.payback_years;
  return [
    [
      o.year.heat,
      year.heatBand_kWh === null
        ? o.money.kWh(whole(year.heat_kWh))
        : o.year.spanOf(whole(year.heat_kWh), whole(year.heatBand_kWh.low), whole(year.heatBand_kWh.high)),
    ],
    [
      o.year.perkWh,
      year.price_perkWh === null
        ? '–'
        : year.price_perkWh.high === null
          ? o.year.upward(`${year.price_perkWh.low.toFixed(3)}\u00A0${currency}`)
          : `${span(year.price_perkWh.low.toFixed(3), year.price_perkWh.high.toFixed(3))}\u00A0${currency}`,
    ],
    ...(year.net === null
      ? []
      : ([
          [o.year.saved, `${span(whole(year.net.low), whole(year.net.high))}\u00A0${currency}`],
          [
            o.year.payback,
            pay === null
              ? o.money.never
              : pay.high !== null
                ? o.year.years(one(pay.low), one(pay.high))
                : o.year.atBest(one(pay.low)),
          ],
        ] as [string, string][])),
    ...(year.netValue === null
      ? []
      : ([
          [
            o.year.value(years),
            `${span(whole(year.netValue.low), whole(year.netValue.high))}\u00A0${currency}`,
          ],
        ] as [string, string][])),
  ];
}

function RunYear() {
  const working = yearState.value === 'working';
  return (
    <p class="proof-act">
      <button type="button" class="act" disabled={working} onClick={() => void runYear()}>
        {working ? o.year.working : o.year.run}
      </button>
      <span class="hint" role="status">
        {yearState.value === 'failed' ? o.year.failed : o.year.hint}
      </span>
    </p>
  );
}

/** What it costs, what its heat is worth, when it has paid: every claim with its inputs beside it. */
export function MoneyView({ built }: { built: Built }) {
  const { shopTotal, currency } = built.values;
  const m = yearMoney.value ?? built.values.money;
  const waits = awaitsHeat();
  const small = (v: number): string => `${v.toFixed(3)}\u00A0${currency}`;
  const heater = doc.value.project.prices?.replacedHeat;
  const unknown = heater !== undefined && heater.kind !== 'none' && heater.price_perkWh === 0;
  const says = unknown ? o.money.needsPrice : waits && m.heatNow_kW === null ? o.money.waiting : m.saying;
  const worth = unknown
    ? o.money.noPrice
    : m.heat_perkWh === null
      ? o.money.noWorth
      : o.money.range(small(m.heat_perkWh[0]), small(m.heat_perkWh[1]));
  return (
    <div class="build-page money">
      <header class="build-page-head">
        <h2>{o.money.title}</h2>
        {m.asOf !== null && <p class="hint">{o.money.asOf(m.asOf)}</p>}
      </header>
      <div class="money-two">
        <section aria-busy={waits}>
          <p class="money-says">{says}</p>
          <Facts
            rows={[
              [o.money.parts, money(shopTotal.cost, currency)],
              ...(shopTotal.paid > 0
                ? ([[o.money.paid, money(shopTotal.paid, currency)]] as [string, string][])
                : []),
              [
                o.money.perkW,
                m.price_perkW === null
                  ? waits
                    ? o.money.waiting
                    : b.read.noHeat
                  : money(m.price_perkW, currency),
              ],
              [o.money.worth, worth],
              ...(m.year === null ? [] : yearFacts(m.year, m.years, currency)),
              ...(m.heat_perkWh === null || unknown || m.year !== null
                ? []
                : ([
                    [
                      o.money.pays,
                      m.paysAfter_h === null
                        ? waits
                          ? o.money.waiting
                          : o.money.never
                        : o.money.hours(
                            Math.round(m.paysAfter_h).toLocaleString('en', { useGrouping: 'min2' }),
                          ),
                    ],
                  ] as [string, string][])),
              ...(m.leastHeat_kWhPerYear === null || unknown
                ? []
                : ([
                    [
                      o.money.least,
                      o.money.kWh(
                        Math.round(m.leastHeat_kWhPerYear).toLocaleString('en', { useGrouping: 'min2' }),
                      ),
                    ],
                  ] as [string, string][])),
            ]}
          />
          {m.year === null && <RunYear />}
          {m.year !== null && yearState.value === 'band' && (
            <p class="hint" role="status">
              {o.year.band}
            </p>
          )}
          <p class="hint">{o.money.season}</p>
        </section>
        <section class="money-inputs">
          <h3>{o.money.inputs}</h3>
          <ul>
            {m.inputs.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
      </div>
      <YourFigures currency={currency} />
    </div>
  );
}
