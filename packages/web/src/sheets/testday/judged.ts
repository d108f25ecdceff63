import { computed } from '@preact/signals';
import { doc } from '../../app/state';
import { type SideAnswer, useSide } from '../../compute/side';
import { keepSame, sameDays } from '../../shape/studied';
import { day } from './state';

const olderOfSame = keepSame(sameDays);
/** The project that test days are judged with: one and the same while only prices, ticks or the season change. */
export const judgedProject = computed(() => olderOfSame(doc.value.project));

/** The day that is looked at, judged; asked anew whenever something that it depends on changes. */
export function useJudged(): SideAnswer<'testDay'> {
  const project = judgedProject.value;
  const id = day.value?.id ?? null;
  return useSide('testday', 'testDay', id === null ? null : { project, day: id }, [project, id]);
}
