import { buildSheet } from '@sunlap/drawing/buildPlan';
import { toDxf } from '@sunlap/drawing/dxf';
import { PRINT } from '@sunlap/drawing/palette';
import { toSvg } from '@sunlap/drawing/svg';
import { build } from '@sunlap/workbench/build/build';
import { buildDrawings, DRAWING_KINDS, type DrawingKind } from '@sunlap/workbench/build/drawings';
import { BUILD_OPTIONS, buildOptionsOf } from '../build-options';
import type { Command } from '../command';
import { WrongInput } from '../io';
import { loadProject } from '../load';
import { writeFileOut } from '../output';
import { sayNotices } from '../report-answer';

/** Drawings as files for people and for other drawing programs. */
export const drawCommand: Command = {
  name: 'draw',
  usage: `draw FILE ${DRAWING_KINDS.join('|')} --svg|--dxf [--out PREFIX]`,
  about: 'panel, headers, supports, loop or cutting bars as SVG or DXF',
  options: {
    svg: { about: 'as SVG' },
    dxf: { about: 'as DXF, in metres' },
    out: { value: 'PREFIX', about: 'write PREFIX-name.svg for each drawing; needed when there are several' },
    ...BUILD_OPTIONS,
  },
  words: [2, 2],
  async run(args, io) {
    const [file, word] = args.words;
    const kind: DrawingKind | undefined = DRAWING_KINDS.find((k) => k === word);
    if (kind === undefined) throw new WrongInput(`${word}: expected ${DRAWING_KINDS.join(', ')}`);
    if (args.on('svg') === args.on('dxf')) throw new WrongInput('expected either --svg or --dxf');
    const project = await loadProject(io, file);
    const answer = build(project, await buildOptionsOf(args, project.units));
    const drawings = buildDrawings(project, answer.result, [kind]);
    const prefix = args.text('out');
    if (prefix === undefined && drawings.length > 1)
      throw new WrongInput(
        `there are ${drawings.length} drawings of ${kind}: ${drawings.map((d) => d.id).join(', ')}; name them with --out PREFIX`,
      );
    for (const drawing of drawings) {
      const sheet = buildSheet(drawing);
      const text = args.on('dxf')
        ? toDxf(drawing)
        : toSvg(sheet.items, {
            width: sheet.width,
            height: sheet.height,
            palette: PRINT,
            title: drawing.title,
            description: drawing.description,
          });
      if (prefix === undefined) io.out(text);
      else await writeFileOut(io, args, `${prefix}-${drawing.id}.${args.on('dxf') ? 'dxf' : 'svg'}`, text);
    }
    return sayNotices(answer, io);
  },
};
