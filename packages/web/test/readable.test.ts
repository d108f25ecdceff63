import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const folder = new URL('../src/styles/', import.meta.url);
const styles = readdirSync(folder)
  .filter((file) => file.endsWith('.css'))
  .map((file) => ({ file, css: readFileSync(new URL(file, folder), 'utf8') }));

/** Selectors of the rules that make something see-through. */
function dimming(css: string): string[] {
  const rules = css.replaceAll(/\/\*[\s\S]*?\*\//g, '').matchAll(/([^{};]+)\{([^{}]*)\}/g);
  return [...rules]
    .filter(([, , body]) => /(^|;|\s)opacity:\s*(0?\.\d+|0)\b/.test(body))
    .map(([, selector]) => selector.trim());
}

describe('words stay readable', () => {
  it('finds a rule that dims', () => {
    expect(dimming('/* a */ .b { color: red; } .c,\n.d { opacity: 0.7; }')).toEqual(['.c,\n.d']);
  });

  // What is switched off may be faint (WCAG 2.2, 1.4.3); an unseen tick box lies over the mark that is drawn for it.
  it('nothing but a control that is switched off is dimmed, answers being worked out again included', () => {
    const dimmed = styles.flatMap(({ file, css }) => dimming(css).map((selector) => `${file}: ${selector}`));
    expect(
      dimmed.filter((place) => !place.includes(':disabled') && !place.endsWith('.work-tick input')),
    ).toEqual([]);
  });
});
