import type { QuantityKind } from '@sunlap/project/units/kinds';
import { useApp } from '../../app/context';
import { doc, units } from '../../app/state';
import { say } from '../../shape/quantity';
import type { Store } from '../../store/store';
import { o } from '../../text/own';
import { Figure } from './Figure';
import { type HowChange, setHow } from './how';

/** One change of how it is built, as one step. */
export function changeHow(store: Store, name: string, change: HowChange): void {
  const { doc: now } = store.get();
  store.apply(name, { doc: { ...now, project: setHow(now.project, change) }, undo: 'commit' });
}

interface Props {
  field:
    | 'spares'
    | 'cementWaste'
    | 'glueAir_C'
    | 'water_C'
    | 'coldest_C'
    | 'hottest_C'
    | 'gust_ms'
    | 'kerf_m';
  label: string;
  kind: QuantityKind;
  /** What stands where the project says nothing. */
  usual: number;
  min: number;
  max: number;
}

/** A figure of building that the project keeps; emptied, the usual stands again. */
export function HowFigure({ field, label, kind, usual, min, max }: Props) {
  const { store } = useApp();
  const u = units.value;
  return (
    <Figure
      label={label}
      kind={kind}
      value={doc.value.project.build?.[field] ?? null}
      min={min}
      max={max}
      placeholder={`${say(usual, kind, u)} ${o.shop.usual}`}
      set={(v) =>
        changeHow(store, v === null ? o.steps.usual(label) : o.steps.how(label, say(v, kind, u)), {
          [field]: v,
        })
      }
    />
  );
}
