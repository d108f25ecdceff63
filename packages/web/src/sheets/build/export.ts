import { type BuildDrawing, buildSheet } from '@sunlap/drawing/buildPlan';
import { doc, say } from '../../app/state';
import { t } from '../../text/catalogue';
import { ask } from './ask';
import { prove } from './state';

const slug = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '') || 'project';

/** Hands a text to the person as a file. */
function download(text: string, name: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
  say(t.files.saved(name));
}

export const today = (): string => {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
};

const common = () => ({ project: doc.peek().project, prove: prove.peek() });

/** The whole design on paper: one file that opens and prints anywhere. */
export async function saveReport(): Promise<void> {
  const html = await ask('report', { ...common(), date: today() });
  download(html, `${slug(doc.peek().project.name)}-report.html`, 'text/html');
}

export async function saveCsv(table: 'parts' | 'cuts'): Promise<void> {
  download(
    await ask('csv', { ...common(), table }),
    `${slug(doc.peek().project.name)}-${table}.csv`,
    'text/csv',
  );
}

export async function saveDrawing(drawing: BuildDrawing, form: 'svg' | 'dxf'): Promise<void> {
  const name = `${slug(doc.peek().project.name)}-${drawing.id}.${form}`;
  if (form === 'dxf') {
    const { toDxf } = await import('@sunlap/drawing/dxf');
    return download(toDxf(drawing), name, 'image/vnd.dxf');
  }
  const [{ toSvg }, { PRINT }] = await Promise.all([
    import('@sunlap/drawing/svg'),
    import('@sunlap/drawing/palette'),
  ]);
  const sheet = buildSheet(drawing);
  download(
    toSvg(sheet.items, {
      width: sheet.width,
      height: sheet.height,
      palette: PRINT,
      title: drawing.title,
      description: drawing.description,
    }),
    name,
    'image/svg+xml',
  );
}
