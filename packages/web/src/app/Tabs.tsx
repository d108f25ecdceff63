import { SHEETS } from '../sheets/registry';
import { t } from '../text/catalogue';
import { narrow, sheet } from './state';

function Tab({ id, here, children }: { id: string; here: boolean; children: preact.ComponentChildren }) {
  return (
    <a href={`#${id}`} aria-current={here ? 'page' : undefined} class={here ? 'tab tab-here' : 'tab'}>
      {children}
    </a>
  );
}

/** Sheets of the set as numbered tabs; on a phone their groups, with the sheets of the open group under them. */
export function Tabs() {
  const at = SHEETS.find((s) => s.id === sheet.value) ?? SHEETS[0];
  if (!narrow.value)
    return (
      <nav class="tabs" aria-label={t.sheetsNav}>
        {SHEETS.map((s) => (
          <Tab key={s.id} id={s.id} here={s === at}>
            <span class="tab-number">{s.number}</span> {s.name}
          </Tab>
        ))}
      </nav>
    );
  const groups = [...new Set(SHEETS.map((s) => s.group))];
  const mine = SHEETS.filter((s) => s.group === at.group);
  return (
    <nav class="tabs-narrow" aria-label={t.sheetsNav}>
      <div class="tabs">
        {groups.map((group) => (
          <Tab key={group} id={SHEETS.find((s) => s.group === group)!.id} here={group === at.group}>
            {group}
          </Tab>
        ))}
      </div>
      {mine.length > 1 && (
        <div class="tabs-under">
          {mine.map((s) => (
            <a key={s.id} href={`#${s.id}`} aria-current={s === at ? 'page' : undefined}>
              {s.number > 0 && <span class="tab-number">{s.number}</span>} {s.name}
            </a>
          ))}
        </div>
      )}
    </nav>
  );
}
