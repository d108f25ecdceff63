import { useEffect } from 'preact/hooks';
import { answered, editing } from '../app/state';
import type { Field } from './field';
import { later } from './later';

const Box = later(async () => (await import('../editor/EditorBox')).EditorBox);

/** The editor of the field that is touched. It is fetched behind the first answer, so that it opens at once. */
export function Editor({ fields }: { fields: readonly Field[] }) {
  useEffect(() => {
    // one that did not come is fetched again when it is wanted
    if (answered.value) Box.fetch().catch(() => {});
  }, [answered.value]);
  return editing.value === null ? null : <Box fields={fields} />;
}
