import { type Notice, rankNotices } from '@sunlap/engine/numeric/notice';
import { EXIT } from './io';
import { wrap } from './table';

const WORDS: Record<Notice['severity'], string> = {
  safety: 'SAFETY',
  damage: 'DAMAGE',
  heat: 'lost heat',
  unsure: 'not sure',
  info: 'note',
};

/** Notices as text, worst first: what, where, what mends it. */
export function noticesText(notices: readonly Notice[], columns = 100): string {
  if (notices.length === 0) return 'Nothing to say about it.\n';
  return `${rankNotices(notices)
    .map((notice) => {
      const cost = notice.cost === undefined ? '' : ` ${notice.cost}.`;
      const head = wrap(`${WORDS[notice.severity]}: ${notice.message}${cost}`, columns, '   ');
      const mend = notice.remedy
        ? `\n${wrap(`   → ${notice.remedy}`.trimStart(), columns - 3, '  ').replace(/^/gm, '   ')}`
        : '';
      const where = notice.path ? `\n   at ${notice.path}` : '';
      const step = notice.mend
        ? `\n${wrap(`Tried, and mends it: ${notice.mend.label}.`, columns - 3, '  ').replace(/^/gm, '   ')}`
        : '';
      return `${head}${mend}${step}${where}`;
    })
    .join('\n')}\n`;
}

/** Exit code that notices and the solver ask for. */
export function exitFor(notices: readonly Notice[], converged: boolean): number {
  if (!converged) return EXIT.notConverged;
  return notices.some((n) => n.severity === 'safety' || n.severity === 'damage') ? EXIT.danger : EXIT.fine;
}
