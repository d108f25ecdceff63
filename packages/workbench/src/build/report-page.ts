import { type BuildDrawing, buildSheet } from '@sunlap/drawing/buildPlan';
import { LIGHT } from '@sunlap/drawing/palette';
import { toSvg } from '@sunlap/drawing/svg';
import { CAUTIONS } from '../cautions/catalogue';

/** Text safe inside HTML. */
export const h = (text: string | number): string =>
  String(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');

/** Longest table on one page; longer ones become several with the same head. */
const ROWS = 22;

export interface Column {
  readonly title: string;
  readonly right?: boolean;
  /** Share of the table's width [%]; given for all or for none. Tables of one kind then stand column under column. */
  readonly width?: number;
}

/** Tables that no page cuts: a longer one is split into several, each with its head and caption. */
export function tables(
  caption: string,
  columns: readonly Column[],
  rows: readonly (readonly (string | number)[])[],
): string[] {
  if (rows.length === 0) return [];
  const parts = Math.ceil(rows.length / ROWS);
  const each = Math.ceil(rows.length / parts);
  const cells = (row: readonly (string | number)[], tag: 'td' | 'th'): string =>
    row.map((c, i) => `<${tag}${columns[i]?.right ? ' class="n"' : ''}>${h(c)}</${tag}>`).join('');
  return Array.from({ length: parts }, (_, k) => {
    const own = rows.slice(k * each, (k + 1) * each);
    const title = parts === 1 ? caption : `${caption} (${k + 1} of ${parts})`;
    const fixed = columns.every((c) => c.width !== undefined);
    const cols = fixed
      ? `<colgroup>${columns.map((c) => `<col style="width:${c.width}%">`).join('')}</colgroup>`
      : '';
    return `<table${fixed ? ' class="fixed"' : ''}><caption>${h(title)}</caption>${cols}<thead><tr>${cells(
      columns.map((c) => c.title),
      'th',
    )}</tr></thead><tbody>${own.map((row) => `<tr>${cells(row, 'td')}</tr>`).join('')}</tbody></table>`;
  });
}

/** {@link tables} one after another. */
export function table(
  caption: string,
  columns: readonly Column[],
  rows: readonly (readonly (string | number)[])[],
): string {
  return tables(caption, columns, rows).join('\n');
}

/** A heading that stays with what follows it; where that is only a sentence, with the first table or drawing too. */
export function block(title: string, first: string, ...rest: string[]): string {
  const all = rest.filter((r) => r !== '');
  const [second, ...others] = first.startsWith('<p') && all.length > 0 ? all : ['', ...all];
  return `<section><div class="keep"><h2>${h(title)}</h2>${first}${second}</div>${others.join('\n')}</section>`;
}

/** Points one under the other; nothing where there are none. */
export const list = (items: readonly string[]): string =>
  `<ul>${items.map((i) => `<li>${h(i)}</li>`).join('')}</ul>`;

/** Name and value, one below the other. */
export const facts = (rows: readonly (readonly [string, string])[]): string =>
  `<dl>${rows.map(([k, v]) => `<div><dt>${h(k)}</dt><dd>${h(v)}</dd></div>`).join('')}</dl>`;

export function figure(drawing: BuildDrawing): string {
  const sheet = buildSheet(drawing);
  const svg = toSvg(sheet.items, {
    width: sheet.width,
    height: sheet.height,
    palette: { ...LIGHT, sheet: '#ffffff' },
    title: drawing.title,
    description: drawing.description,
  });
  return `<figure><figcaption>${h(drawing.title)}</figcaption>${svg}</figure>`;
}

/** Cautions in the place where the hand is. */
export function cautionBox(ids: readonly string[]): string {
  const rows = ids.flatMap((id) => {
    const c = CAUTIONS.get(id);
    return c ? [`<p><b>${h(c.title)}</b> ${h(c.text)}</p>`] : [];
  });
  return rows.length === 0 ? '' : `<aside>${rows.join('')}</aside>`;
}

/** Tokens of the look, for screen and paper. Page size is the reader's: A4 or Letter. */
const CSS = `
:root{--paper:#f5f2ea;--sheet:#fbf9f4;--ink:#22303a;--soft:#5d6972;--hair:#cfc9ba;--flag:#8a5a00;--flagFill:#fbeecb}
*{box-sizing:border-box}
html{font:400 15px/1.45 "Atkinson Hyperlegible Next",system-ui,sans-serif;color:var(--ink);background:var(--paper);font-variant-numeric:tabular-nums}
body{max-width:60rem;margin:0 auto;padding:1.5rem 2rem;background:var(--sheet)}
h1{font-size:1.7rem;font-weight:680;margin:0}
h2{font-size:1.2rem;font-weight:680;margin:1.6rem 0 .5rem;border-bottom:1px solid var(--ink);padding-bottom:.15rem}
h3{font-size:1rem;font-weight:680;margin:.8rem 0 .2rem}
p,ul,ol{margin:.3rem 0}
ul{padding-left:1.1rem}
table{border-collapse:collapse;width:100%;margin:.6rem 0;font-size:.86rem}
caption{text-align:left;font-weight:550;padding:.2rem 0}
th,td{text-align:left;vertical-align:top;padding:.18rem .5rem .18rem 0;border-bottom:1px solid var(--hair)}
th{font-weight:550;color:var(--soft)}
.n{text-align:right;white-space:nowrap}
.n+:not(.n){padding-left:.6rem}
.fixed{table-layout:fixed}
.fixed .n{white-space:normal}
dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(11rem,1fr));gap:.4rem 1rem;margin:.5rem 0}
dt{color:var(--soft);font-size:.8rem}
dd{margin:0;font-weight:550}
figure{margin:.8rem 1px .8rem 0;border:1px solid var(--hair);padding:.4rem;background:#fff}
figcaption{font-weight:550;font-size:.86rem}
figure svg{width:100%;height:auto;max-height:21cm;display:block}
aside{border-left:4px solid var(--flag);background:var(--flagFill);padding:.3rem .7rem;margin:.5rem 0;font-size:.86rem}
aside p{margin:.15rem 0}
.notice{border-left:4px solid var(--flag);padding:.1rem .7rem;margin:.5rem 0}
.card{border:1.5px solid var(--ink);padding:.5rem .9rem;margin:.7rem 0}
.card h3{margin-top:.1rem}
.tick{display:inline-block;width:.8em;height:.8em;border:1.5px solid var(--ink);margin-right:.5em;vertical-align:-.08em}
.foot{color:var(--soft);font-size:.8rem;margin-top:1.5rem;border-top:1px solid var(--hair);padding-top:.3rem}
@media print{
@page{margin:14mm 13mm 16mm;@bottom-right{content:counter(page) " / " counter(pages);font:8pt system-ui,sans-serif;color:#5d6972}@bottom-left{content:var(--foot,"");font:8pt system-ui,sans-serif;color:#5d6972}}
html,body{background:#fff;font-size:10.5pt}
body{max-width:none;padding:0}
table,figure,aside,.card,.keep,.step,.notice,dl{break-inside:avoid}
h1,h2,h3,caption,figcaption{break-after:avoid}
aside,table+ul,table+dl{break-before:avoid}
p,li{orphans:3;widows:3}
.sheet{break-before:page}
aside,.notice{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
`;

/** The whole file: no network, no script. */
export function page(title: string, body: string): string {
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<title>${h(title)}</title><style>${CSS}</style></head>
<body>
${body}
</body></html>
`;
}
