import type { Project } from '@sunlap/project/schema/project';
import { useApp } from '../../app/context';
import { doc } from '../../app/state';
import { QuantityInput } from '../../parts/QuantityInput';
import { y } from '../../text/yard';
import type { YardShade } from './yard-protocol';

type Of = 'pool' | 'collector';

function withSeen(project: Project, of: Of, month: number, share: number | null): Project {
  const yard = project.yard ?? { obstacles: [] };
  const rest = (yard.seenSunlit ?? []).filter((s) => s.of !== of || s.month !== month);
  const seenSunlit = share === null ? rest : [...rest, { of, month, share }];
  return { ...project, yard: { ...yard, seenSunlit } };
}

/** Sunlit share as the person judges it, beside the computed one, for the month looked at. */
export function Seen({ shade, month }: { shade: YardShade; month: number }) {
  const { store } = useApp();
  const { project } = doc.value;
  return (
    <details class="yard-seen">
      <summary>{y.seen}</summary>
      <p class="hint">{y.seenHint(y.months[month])}</p>
      {(['pool', 'collector'] as const).map((of) => {
        const seen =
          project.yard?.seenSunlit?.find((s) => s.of === of && s.month === month + 1)?.share ?? null;
        const computed = shade.months[of][month];
        const apart = seen === null ? 0 : Math.abs(seen - computed);
        const put = (share: number | null, undo: 'drag' | 'commit') =>
          store.apply(y.seenStep, {
            doc: { ...doc.value, project: withSeen(doc.value.project, of, month + 1, share) },
            undo,
          });
        return (
          <QuantityInput
            key={`${of}${month}`}
            label={of === 'pool' ? y.seenPool : y.seenCollector}
            kind="ratio"
            value={seen}
            min={0}
            max={1}
            hint={
              y.seenBeside(`${Math.round(computed * 100)} %`) +
              (apart > 0.1 ? y.seenDiffers(`${Math.round(apart * 100)} %`) : '')
            }
            onValue={(v) => put(v, 'drag')}
            onEmpty={() => put(null, 'commit')}
            onDone={() => store.endDrag()}
          />
        );
      })}
    </details>
  );
}
