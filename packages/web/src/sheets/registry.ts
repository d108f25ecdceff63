import type { ComponentType } from 'preact';
import { t } from '../text/catalogue';

/** One folder per page. A page is listed here only when it works. */
export interface SheetRecord {
  id: string;
  number: number;
  name: string;
  /** Where it is reached on a phone. */
  group: string;
  load(): Promise<{ default: ComponentType }>;
}

export const SHEETS: readonly SheetRecord[] = [
  {
    id: 'home',
    number: 0,
    name: t.sheets.home,
    group: t.groups.heater,
    load: () => import('../home/HomeSheet'),
  },
  {
    id: 'yard',
    number: 1,
    name: t.sheets.yard,
    group: t.groups.year,
    load: () => import('./yard/YardSheet'),
  },
  {
    id: 'collector',
    number: 2,
    name: t.sheets.collector,
    group: t.groups.heater,
    load: () => import('./collector/CollectorSheet'),
  },
  {
    id: 'loop',
    number: 3,
    name: t.sheets.loop,
    group: t.groups.heater,
    load: () => import('./loop/LoopSheet'),
  },
  {
    id: 'season',
    number: 4,
    name: t.sheets.season,
    group: t.groups.year,
    load: () => import('./season/SeasonSheet'),
  },
  {
    id: 'ahead',
    number: 5,
    name: t.sheets.ahead,
    group: t.groups.week,
    load: () => import('./ahead/AheadSheet'),
  },
  {
    id: 'testday',
    number: 6,
    name: t.sheets.testday,
    group: t.groups.measure,
    load: () => import('./testday/TestDaySheet'),
  },
  {
    id: 'build',
    number: 7,
    name: t.sheets.build,
    group: t.groups.build,
    load: () => import('./build/BuildSheet'),
  },
];
