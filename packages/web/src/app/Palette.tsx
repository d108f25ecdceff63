import { useRef, useState } from 'preact/hooks';
import { Modal } from '../parts/Modal';
import { fieldText } from '../shape/fieldText';
import { t } from '../text/catalogue';
import { COMMANDS, shortcutText } from './commands';
import { useApp } from './context';
import { sheetFields } from './fields';
import { editing, paletteOpen, units } from './state';

interface Row {
  key: string;
  label: string;
  aside: string;
  group: string;
  run(): void;
}

/** Everything that can be done or changed, by name. */
export function Palette() {
  const { store, actions } = useApp();
  const [text, setText] = useState('');
  const [at, setAt] = useState(0);
  const list = useRef<HTMLDivElement>(null);
  if (!paletteOpen.value) return null;
  const context = { store, app: actions };
  const close = () => {
    paletteOpen.value = false;
    setText('');
    setAt(0);
  };
  const rows: Row[] = [
    ...COMMANDS.filter((c) => c.id !== 'palette' && c.available?.(context) !== false).map((c) => ({
      key: c.id,
      label: c.label,
      aside: c.shortcut === undefined ? '' : shortcutText(c.shortcut),
      group: t.commandsGroup,
      run: () => c.run(context),
    })),
    ...sheetFields.value.map((f) => ({
      key: `field-${f.id}`,
      label: f.label,
      aside: fieldText(f, units.value),
      group: t.fieldsGroup,
      run: () => {
        const chip = document.querySelector<HTMLElement>(`[data-field="${CSS.escape(f.id)}"]`);
        chip?.scrollIntoView({ block: 'nearest' });
        editing.value = { id: f.id, from: chip };
      },
    })),
  ];
  const words = text
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => w !== '');
  const found = rows.filter((r) => words.every((w) => `${r.label} ${r.aside}`.toLowerCase().includes(w)));
  const here = Math.min(at, Math.max(0, found.length - 1));
  const go = (row: Row | undefined) => {
    if (row === undefined) return;
    close();
    setTimeout(() => row.run(), 0);
  };
  const move = (d: number) => {
    const next = (here + d + found.length) % Math.max(1, found.length);
    setAt(next);
    list.current?.querySelectorAll('[role="option"]')[next]?.scrollIntoView({ block: 'nearest' });
  };
  return (
    <Modal label={t.menu} close={close} kind="palette">
      <input
        class="palette-search"
        role="combobox"
        aria-expanded="true"
        aria-controls="palette-list"
        aria-activedescendant={found[here] === undefined ? undefined : `row-${found[here].key}`}
        aria-label={t.search}
        placeholder={t.search}
        autocomplete="off"
        value={text}
        onInput={(event) => {
          setText(event.currentTarget.value);
          setAt(0);
        }}
        onKeyDown={(event) => {
          if (event.key === 'ArrowDown') move(1);
          else if (event.key === 'ArrowUp') move(-1);
          else if (event.key === 'Enter') go(found[here]);
          else return;
          event.preventDefault();
        }}
      />
      <div id="palette-list" role="listbox" aria-label={t.menu} ref={list} tabIndex={-1}>
        {found.map((row, i) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: keys are handled by the combobox that owns this list
          <div
            key={row.key}
            id={`row-${row.key}`}
            role="option"
            tabIndex={-1}
            aria-selected={i === here}
            class={i > 0 && found[i - 1].group !== row.group ? 'palette-break' : ''}
            onClick={() => go(row)}
            onPointerMove={() => {
              if (i !== here) setAt(i);
            }}
          >
            <span>{row.label}</span>
            <span class="palette-aside">{row.aside}</span>
          </div>
        ))}
      </div>
      {found.length === 0 && <p class="hint">{t.noMatch}</p>}
    </Modal>
  );
}
