import type { QuantityKind } from '@sunlap/project/units/kinds';
import { useRef } from 'preact/hooks';
import { QuantityInput } from '../../parts/QuantityInput';

interface Props {
  label: string;
  kind: QuantityKind;
  value: number | null;
  min: number;
  max: number;
  hint?: string;
  placeholder?: string;
  set: (value: number | null) => void;
}

/** A figure that becomes one step when its field is left; emptied it is taken back. */
export function Figure({ set, value, ...field }: Props) {
  const draft = useRef<number | null | undefined>(undefined);
  return (
    <QuantityInput
      {...field}
      value={value}
      onValue={(v) => {
        draft.current = v;
      }}
      onEmpty={() => {
        draft.current = null;
      }}
      onDone={() => {
        const next = draft.current;
        draft.current = undefined;
        if (next !== undefined && next !== value) set(next);
      }}
    />
  );
}
