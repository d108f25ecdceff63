import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { Field } from '../parts/field';
import { t } from '../text/catalogue';
import { pipeName } from './pipes';
import { say } from './quantity';

/** The value of a field as its chip shows it. */
export function fieldText(field: Field, units: UnitSystem): string {
  if (field.chip !== undefined) return field.chip;
  if (field.value === null) return t.chip.varies;
  if (field.type === 'pipe') return pipeName(field.value);
  if (field.type === 'choice')
    return field.options.find((o) => o.value === field.value)?.label ?? field.value;
  return say(field.value, field.kind, units);
}
