import { type Joinable, joinableOf } from '@sunlap/data/joinable';
import type { Outlet } from '@sunlap/project/schema/loop';
import type { Project } from '@sunlap/project/schema/project';
import type { PanelGeometry } from '../assembly/geometry';
import { addCollectorParts } from './collector-parts';
import { endLine, type Line, newLine } from './line';
import { addElement, addPathParts, nextPipe } from './line-path';
import { teeAway, teesOf } from './partings';
import { type Gathering, joinableOr, put, simpleFitting } from './strand';
import { valveOf } from './valves';

/**
 * Every part from where water leaves the pool's own plumbing to where it comes back, in the order in which it passes;
 * with scope `all` from the suctions to the outlets.
 */
export function addLoopParts(
  g: Gathering,
  project: Pick<Project, 'collector' | 'loop'>,
  geometry: PanelGeometry,
): void {
  const { collector, loop } = project;
  const all = g.options.scope === 'all';
  let line: Line = newLine();
  if (all) {
    line = addSuctions(g, project);
    addPathParts(g, line, loop.toPump, '/loop/toPump');
    // the pump, then the filter: pipe ends in their own unions
    endLine(line, () => 0);
    line = newLine(line.pipe);
    addPathParts(g, line, loop.toFilter, '/loop/toFilter');
    if (loop.filter) {
      endLine(line, () => 0);
      line = newLine(line.pipe);
    }
    addPathParts(g, line, loop.toBypass, '/loop/toBypass');
  }
  const own = ownPipe(g, project, line);
  const { bypass } = loop;
  let past: Line | null = null;
  if (bypass.kind !== 'none') {
    const path = '/loop/bypass';
    const pipe =
      bypass.kind === 'threeWay' && bypass.pipe !== undefined ? joinableOr(g, bypass.pipe, path) : own;
    if (bypass.kind === 'threeWay') {
      endLine(line, () => 0);
      put(g.bag, valveOf(pipe, 'diverter'), 1, path);
      line = newLine(pipe);
      past = newLine(pipe);
    } else {
      teeAway(g, line, pipe, 2, path);
      const start = (p: Joinable): number => p.elbow_m;
      line = newLine(pipe, start, 1);
      past = newLine(pipe, start, 1);
      addElement(g, line, bypass.toCollector, [bypass.toCollector], 0, `${path}/toCollector`);
      addElement(g, past, bypass.pastValve, [bypass.pastValve], 0, `${path}/pastValve`);
    }
    addPathParts(g, past, bypass.past, `${path}/past`);
  } else if (!all) line = newLine(own);

  addPathParts(g, line, loop.feed, '/loop/feed');
  let back = addCollectorParts(g, collector, geometry, line);
  addPathParts(g, back, loop.return, '/loop/return');
  if (loop.returnOutlet) {
    addPathParts(g, back, loop.returnOutlet.path, '/loop/returnOutlet/path');
    mouth(g, back, loop.returnOutlet, '/loop/returnOutlet');
    if (past) back = past;
    else return;
  } else if (past) {
    // the two ways meet in a tee
    const pipe = past.pipe ?? back.pipe ?? own;
    endLine(past, (p) => p.elbow_m);
    endLine(back, (p) => p.elbow_m);
    teesOf(g, pipe, 1, '/loop/bypass');
    back = newLine(pipe, (p) => p.elbow_m, 1);
  }
  if (!all) {
    endLine(back, () => 0);
    return;
  }
  addPathParts(g, back, loop.toPool, '/loop/toPool');
  addOutlets(g, project, back, own);
}

function ownPipe(g: Gathering, project: Pick<Project, 'loop'>, line: Line): Joinable {
  const { loop } = project;
  return (
    line.pipe ??
    nextPipe(g, loop.toBypass, 0, '/loop/toBypass') ??
    nextPipe(g, loop.feed, 0, '/loop/feed') ??
    nextPipe(g, loop.toPool, 0, '/loop/toPool') ??
    joinableOf('pvc-sch40-1-1/2')!
  );
}

function addSuctions(g: Gathering, project: Pick<Project, 'loop'>): Line {
  const { suctions } = project.loop;
  const lines = suctions.map((suction, i) => {
    const line = newLine(null, () => 0, suctions.length > 1 ? 1 : 0);
    addPathParts(g, line, suction.path, `/loop/suctions/${i}/path`);
    return line;
  });
  if (lines.length === 1) return lines[0];
  for (const line of lines) endLine(line, (p) => p.elbow_m);
  const meeting = lines.find((line) => line.pipe)?.pipe ?? joinableOf('pvc-sch40-1-1/2')!;
  teesOf(g, meeting, suctions.length - 1, '/loop/suctions');
  return newLine(meeting, (p) => p.elbow_m, 1);
}

function addOutlets(g: Gathering, project: Pick<Project, 'loop'>, line: Line, own: Joinable): void {
  const { outlets } = project.loop;
  const pipe = line.pipe ?? own;
  if (outlets.length === 1) {
    addPathParts(g, line, outlets[0].path, '/loop/outlets/0/path');
    mouth(g, line, outlets[0], '/loop/outlets/0');
    return;
  }
  teeAway(g, line, pipe, outlets.length, '/loop/outlets');
  outlets.forEach((outlet, i) => {
    const branch = newLine(pipe, (p) => p.elbow_m, 1);
    addPathParts(g, branch, outlet.path, `/loop/outlets/${i}/path`);
    mouth(g, branch, outlet, `/loop/outlets/${i}`);
  });
}

/** Under water a fitting in the wall; over it the pipe's own end. */
function mouth(g: Gathering, line: Line, outlet: Pick<Outlet, 'kind'>, path: string): void {
  const pipe = line.pipe ?? joinableOf('pvc-sch40-1-1/2')!;
  if (outlet.kind === 'underWater')
    put(g.bag, simpleFitting('wallFitting', pipe, 1, 0, 'Return fitting in the pool wall'), 1, path);
  endLine(line, () => 0);
}
