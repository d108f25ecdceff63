import { doc } from '../../app/state';
import { type SideAnswer, useSide } from '../../compute/side';
import { day } from './state';

/** The day that is looked at, judged; asked anew whenever something changes. */
export function useJudged(): SideAnswer<'testDay'> {
  const { project } = doc.value;
  const id = day.value?.id ?? null;
  return useSide('testday', 'testDay', id === null ? null : { project, day: id }, [project, id]);
}
