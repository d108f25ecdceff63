import { poolCovers } from '@sunlap/data/poolCovers';
import type { Project } from '@sunlap/project/schema/project';
import type { Schedule, Season } from '@sunlap/project/schema/season';
import type { ComponentChildren } from 'preact';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { QuantityInput } from '../../parts/QuantityInput';
import { SelectRow } from '../../parts/SelectRow';
import { say } from '../../shape/quantity';
import { s } from '../../text/season';
import { ClockInput } from './ClockInput';
import { withoutPart, withSeason } from './fields';
import { MonthPicks } from './Months';
import { ScheduleRows } from './ScheduleRows';

const w = s.habits;
const ALL = new Array<boolean>(12).fill(true);
const NONE = new Array<boolean>(12).fill(false);
const NIGHT: Schedule = { months: ALL, from_h: 20, to_h: 9 };
const AFTERNOON: Schedule = { months: ALL, from_h: 15, to_h: 18 };

/** What people do with the pool: covers, swimmers, another heater, fill water, the filter's hours, the winter. */
export function Habits() {
  const { store } = useApp();
  const { project } = doc.value;
  const u = units.value;
  const season: Season = project.season ?? {};
  const put = (name: string, next: Project, undo: 'commit' | 'drag' = 'commit') =>
    store.apply(w.step(name), { doc: { ...doc.value, project: next }, undo });
  const set = (name: string, change: Partial<Season>, undo: 'commit' | 'drag' = 'commit') =>
    put(name, withSeason(project, change), undo);
  const { cover, swimmers, heater } = season;
  const filter = season.filterHours ?? { from_h: 9, to_h: 17 };
  const coverName = poolCovers.find((c) => c.id === cover?.cover)?.name;
  return (
    <div class="habits">
      <Part title={w.cover} now={cover === undefined ? w.none : (coverName ?? cover.cover)}>
        <SelectRow
          label={w.coverKind}
          value={cover?.cover ?? ''}
          options={[['', w.none], ...poolCovers.map((c): [string, string] => [c.id, c.name])]}
          put={(v) =>
            v === ''
              ? put(w.cover, withoutPart(project, 'cover'))
              : set(w.cover, { cover: { on: cover?.on ?? [NIGHT], cover: v } })
          }
        />
        {cover !== undefined && (
          <ScheduleRows
            of={w.coverOn}
            on={cover.on}
            usual={NIGHT}
            set={(on) => set(w.coverOn, { cover: { ...cover, on } })}
          />
        )}
      </Part>
      <Part
        title={w.swimmers}
        now={swimmers === undefined || swimmers.count === 0 ? w.none : String(swimmers.count)}
      >
        <QuantityInput
          label={w.howMany}
          kind="count"
          value={swimmers?.count ?? 0}
          min={0}
          max={200}
          hint={w.swimHint}
          onValue={(count) =>
            set(w.swimmers, { swimmers: { on: swimmers?.on ?? [AFTERNOON], count } }, 'drag')
          }
          onDone={() => store.endDrag()}
        />
        {swimmers !== undefined && (
          <ScheduleRows
            of={w.swimOn}
            on={swimmers.on}
            usual={AFTERNOON}
            weekdays
            set={(on) => set(w.swimOn, { swimmers: { ...swimmers, on } })}
          />
        )}
        <MonthRow
          label={w.swimMonths}
          on={season.swimMonths ?? ALL}
          set={(swimMonths) => set(w.swimMonths, { swimMonths })}
        />
      </Part>
      <Part
        title={w.heater}
        now={
          heater === undefined
            ? w.none
            : `${s.options[heater.kind]}, ${say(heater.setpoint_C, 'temperature', u)}`
        }
      >
        {heater === undefined ? (
          <p class="hint">{w.heaterChip}</p>
        ) : (
          <>
            <QuantityInput
              label={w.capacity}
              kind="heatRate"
              value={heater.capacity_W}
              min={100}
              max={1e6}
              onValue={(capacity_W) => set(w.capacity, { heater: { ...heater, capacity_W } }, 'drag')}
              onDone={() => store.endDrag()}
            />
            <QuantityInput
              label={w.thermostat}
              kind="temperature"
              value={heater.setpoint_C}
              min={0}
              max={45}
              onValue={(setpoint_C) => set(w.thermostat, { heater: { ...heater, setpoint_C } }, 'drag')}
              onDone={() => store.endDrag()}
            />
            <QuantityInput
              label={w.efficiency}
              kind="ratio"
              value={heater.efficiency ?? null}
              min={0.1}
              max={12}
              placeholder={w.ofKind}
              hint={w.efficiencyHint}
              onValue={(efficiency) => set(w.efficiency, { heater: { ...heater, efficiency } }, 'drag')}
              onEmpty={() => {
                const { efficiency: _, ...rest } = heater;
                set(w.efficiency, { heater: rest });
              }}
              onDone={() => store.endDrag()}
            />
            {heater.on.length === 0 && <p class="hint">{w.heaterAlways}</p>}
            <ScheduleRows
              of={w.heaterOn}
              on={heater.on}
              usual={{ months: ALL, from_h: 0, to_h: 24 }}
              set={(on) => set(w.heaterOn, { heater: { ...heater, on } })}
            />
          </>
        )}
      </Part>
      <Water season={season} project={project} set={set} put={put} />
      <Part title={w.winter} now={season.drained?.some(Boolean) ? w.drainedNow : w.neverDrained}>
        <MonthRow
          label={w.drained}
          on={season.drained ?? NONE}
          set={(drained) => set(w.drained, { drained })}
        />
        <p class="hint">{w.drainedHint}</p>
        <span class="schedule-hours">
          <span>{w.filter}</span>
          <ClockInput
            label={w.from}
            value={filter.from_h}
            put={(from_h) => set(w.filter, { filterHours: { ...filter, from_h } })}
          />
          <ClockInput
            label={w.to}
            value={filter.to_h}
            put={(to_h) => set(w.filter, { filterHours: { ...filter, to_h } })}
          />
        </span>
        <p class="hint">{w.filterHint}</p>
      </Part>
    </div>
  );
}

interface WaterProps {
  season: Season;
  project: Project;
  set: (name: string, change: Partial<Season>, undo?: 'commit' | 'drag') => void;
  put: (name: string, next: Project, undo?: 'commit' | 'drag') => void;
}

/** Water that leaves and what comes in for it. */
function Water({ season, project, set, put }: WaterProps) {
  const { store } = useApp();
  const u = units.value;
  const { filter } = project.loop;
  const clear = (part: 'mains_C' | 'splash_m3PerDay' | 'backwashEvery_days') =>
    put(w.water, withoutPart(project, part));
  const done = () => store.endDrag();
  return (
    <Part
      title={w.water}
      now={season.mains_C === undefined ? w.mainsMean : say(season.mains_C, 'temperature', u)}
    >
      <QuantityInput
        label={w.mains}
        kind="temperature"
        value={season.mains_C ?? null}
        min={0}
        max={40}
        placeholder={w.mainsMean}
        onValue={(mains_C) => set(w.mains, { mains_C }, 'drag')}
        onEmpty={() => clear('mains_C')}
        onDone={done}
      />
      <QuantityInput
        label={w.splash}
        kind="volume"
        value={season.splash_m3PerDay ?? null}
        min={0}
        max={20}
        placeholder={say(0, 'volume', u)}
        onValue={(splash_m3PerDay) => set(w.splash, { splash_m3PerDay }, 'drag')}
        onEmpty={() => clear('splash_m3PerDay')}
        onDone={done}
      />
      <QuantityInput
        label={w.backwash}
        kind="count"
        value={season.backwashEvery_days ?? null}
        min={1}
        max={365}
        placeholder={w.never}
        hint={
          filter?.backwash_m3 === undefined
            ? w.backwashNone
            : w.backwashTakes(say(filter.backwash_m3, 'volume', u))
        }
        onValue={(backwashEvery_days) => set(w.backwash, { backwashEvery_days }, 'drag')}
        onEmpty={() => clear('backwashEvery_days')}
        onDone={done}
      />
      {filter !== undefined && (
        <QuantityInput
          label={w.backwashVolume}
          kind="volume"
          value={filter.backwash_m3 ?? null}
          min={0}
          max={20}
          placeholder={say(0, 'volume', u)}
          onValue={(backwash_m3) =>
            put(
              w.backwashVolume,
              { ...project, loop: { ...project.loop, filter: { ...filter, backwash_m3 } } },
              'drag',
            )
          }
          onDone={done}
        />
      )}
    </Part>
  );
}

function Part({ title, now, children }: { title: string; now: string; children: ComponentChildren }) {
  return (
    <details class="habit">
      <summary>
        {title} <span class="soft">{now}</span>
      </summary>
      {children}
    </details>
  );
}

function MonthRow({
  label,
  on,
  set,
}: {
  label: string;
  on: readonly boolean[];
  set: (on: boolean[]) => void;
}) {
  return (
    <div class="month-row">
      <span>{label}</span>
      <MonthPicks label={label} on={on} set={set} />
    </div>
  );
}
