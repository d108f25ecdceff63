import type { SlopeCase } from '@sunlap/workbench/build/slope-compare';
import { doc, units } from '../../app/state';
import { Cautions } from '../../parts/Cautions';
import { CautionLines } from '../../parts/LifeCards';
import { say } from '../../shape/quantity';
import { b } from '../../text/build';
import { o } from '../../text/own';
import { Assumptions } from './Assumptions';
import { Boards } from './Boards';
import type { Built } from './protocol';
import { awaitsHeat, drawingId, view } from './state';
import { Facts, Table } from './Tables';

/** Passes that are held alike in one row. */
function alike(rows: readonly [string, ...string[]][]): string[][] {
  const byRest = new Map<string, { names: string[]; rest: string[] }>();
  for (const [name, ...rest] of rows) {
    const key = rest.join('|');
    const row = byRest.get(key) ?? { names: [], rest };
    row.names.push(name);
    byRest.set(key, row);
  }
  return [...byRest.values()].map(({ names, rest }) => [names.join(', '), ...rest]);
}

/** Tubes that hold air, and those that may. */
function airWords(air: SlopeCase['air']): string {
  if (air === null) return '–';
  if (air.holds === 0 && air.doubtful === 0) return o.slopes.clears;
  return [
    ...(air.holds > 0 ? [o.slopes.holds(air.holds, air.tubes)] : []),
    ...(air.doubtful > 0 ? [o.slopes.doubtful(air.doubtful, air.tubes)] : []),
  ].join(', ');
}

/** What holds it up, what it weighs, whether it drains, what pressure and heat do to it. */
export function SupportsView({ built }: { built: Built }) {
  const { supports: s, slopes, pressure: p } = built.values;
  const u = units.value;
  const small = (v: number): string => say(v, 'smallLength', u);
  const roof = doc.value.project.collector.placement.mounting === 'roof';
  const drawing = built.drawings.find((d) => d.id.startsWith('supports'));
  return (
    <div class="build-page hold">
      <section>
        <h2>{b.hold.title}</h2>
        {drawing !== undefined && (
          <p>
            <button
              type="button"
              class="act act-quiet"
              onClick={() => {
                drawingId.value = drawing.id;
                view.value = 'drawings';
              }}
            >
              {b.hold.seePlan}
            </button>
          </p>
        )}
        <Table
          title={b.hold.title}
          heads={[
            b.hold.pass,
            b.hold.lines,
            b.hold.apart,
            b.hold.most,
            b.hold.sagEnd,
            b.hold.sagSimple,
            b.hold.straps,
            b.hold.member,
          ]}
          rows={alike(
            s.rows.map((r): [string, ...string[]] => [
              r.name,
              String(r.lines_m.length),
              r.lines_m.length > 1 ? say(r.lines_m[1] - r.lines_m[0], 'length', u) : '–',
              r.ceiling_m === null ? b.hold.none : say(r.ceiling_m, 'length', u),
              small(r.sagEnd_m),
              small(r.sagSimple_m),
              String(r.straps),
              say(r.member_m, 'length', u),
            ]),
          )}
        />
        <Facts
          rows={[
            [b.hold.filled, say(s.filled_kg, 'mass', u)],
            [b.hold.dry, say(s.dry_kg, 'mass', u)],
            [b.hold.perSupport, say(s.perSupport_N / 9.80665, 'mass', u)],
            [
              b.hold.members,
              s.members.map((m) => `${m.count} × ${say(m.length_m, 'length', u)}`).join(', ') || '–',
            ],
            [b.hold.missing, say(s.boardsMissing_m, 'length', u)],
            [b.hold.wind(say(s.gust_ms, 'windSpeed', u)), say(s.wind_Pa, 'pressure', u)],
          ]}
        />
        <Boards plan={s} />
        <p class="build-note">{b.hold.strength}</p>
        <Cautions hand={roof ? 'roof' : 'ground'} />
      </section>
      <section>
        <h2>{b.hold.slopes}</h2>
        <Table
          title={b.hold.slopes}
          heads={[
            b.hold.laid,
            b.hold.fall,
            b.hold.drains,
            b.hold.stays,
            o.slopes.air,
            o.slopes.heat,
            b.hold.lowest,
          ]}
          rows={slopes.map((c) => [
            b.hold.laidAs[c.which],
            b.hold.inThousand((c.fall * 1000).toFixed(1).replace('-', '−')),
            c.drains ? b.hold.yes : b.hold.no,
            say(c.litresLeft / 1000, 'volume', u),
            airWords(c.air),
            c.heat_W === null ? (awaitsHeat() ? '…' : '–') : say(c.heat_W, 'heatRate', u),
            c.lowest_Pa === null ? '–' : say(c.lowest_Pa, 'pressure', u),
          ])}
        />
        <CautionLines ids={['scald', 'freeze']} />
      </section>
      <section>
        <h2>{b.hold.pressure}</h2>
        <Assumptions coldest_C={p.coldest_C} />
        <Table
          title={b.hold.pressure}
          heads={[
            b.hold.pipe,
            b.hold.rated,
            b.hold.may,
            b.hold.pump,
            b.hold.dryAt,
            b.hold.limit,
            b.hold.collapse,
          ]}
          rows={p.rows.map((r) => [
            r.label,
            say(r.rating_Pa, 'pressure', u),
            say(r.allowedRunning_Pa, 'pressure', u),
            `${say(r.pressure_Pa, 'pressure', u)}${r.okRunning ? '' : ` ▲ ${b.hold.over}`}`,
            `${say(r.dry_C, 'temperature', u)}${r.okDry ? '' : ` ▲ ${b.hold.over}`}`,
            say(r.limit_C, 'temperature', u),
            r.collapse_Pa === null ? '–' : say(r.collapse_Pa, 'pressure', u),
          ])}
        />
        <h3>{b.hold.growth(say(p.coldest_C, 'temperature', u), say(p.dry_C, 'temperature', u))}</h3>
        <Table
          title={b.hold.growth(say(p.coldest_C, 'temperature', u), say(p.dry_C, 'temperature', u))}
          heads={[b.hold.run, b.hold.pipe, b.hold.length, b.hold.grows, b.hold.leg]}
          rows={p.expansion.map((e) => [
            e.label,
            e.pipe,
            say(e.length_m, 'length', u),
            small(e.change_m),
            e.leg_m === null ? '–' : say(e.leg_m, 'length', u),
          ])}
        />
        {p.unequal_m > 0 && <p class="build-note">{b.hold.unequal(small(p.unequal_m))}</p>}
        <CautionLines ids={['noAirTest', 'digging']} />
      </section>
    </div>
  );
}
