import { DomainError } from '../numeric/errors';
import type { PanelDescription, PanelPipe } from './panel-types';
import { wallResistance } from './tube';

/** A checked panel in flat lists, with the temperatures of its last solution to start the next from. */
export interface PreparedPanel {
  readonly description: PanelDescription;
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Pieces of element e are pieceStart[e] … pieceStart[e + 1] − 1. */
  readonly pieceStart: Int32Array;
  readonly pieceLength_m: Float64Array;
  readonly pieceOutside: Int32Array;
  /** Per element: 0 where it is not a pipe. */
  readonly length_m: Float64Array;
  readonly wall_mKW: Float64Array;
  readonly surface_C: Float64Array;
  readonly water_C: Float64Array;
  started: boolean;
}

/**
 * Checks a panel and lays it out flat. Do it once per layout; `solvePanel` reuses it for every flow and hour.
 *
 * @param description  nodes and elements
 * @throws {DomainError} for a node that does not exist, a pipe without pieces, a length or diameter that is
 *                       not positive, a bore not inside its wall, a neighbour that is not a pipe
 */
export function preparePanel(description: PanelDescription): PreparedPanel {
  const { nodeCount, elements } = description;
  if (!(Number.isInteger(nodeCount) && nodeCount >= 0))
    throw new DomainError('number of nodes', nodeCount, '≥ 0');
  const n = elements.length;
  const from = new Int32Array(n);
  const to = new Int32Array(n);
  const pieceStart = new Int32Array(n + 1);
  const length = new Float64Array(n);
  const wall = new Float64Array(n);
  const pieceLength: number[] = [];
  const pieceOutside: number[] = [];
  elements.forEach((element, e) => {
    for (const node of [element.from, element.to])
      if (!(Number.isInteger(node) && node >= 0 && node < nodeCount))
        throw new DomainError(`node of element ${e}`, node, `0…${nodeCount - 1}`);
    from[e] = element.from;
    to[e] = element.to;
    if (element.kind === 'pipe') {
      checkNeighbours(element, elements);
      if (element.coilDiameter_m !== undefined && !(element.coilDiameter_m >= 2 * element.bore_m))
        throw new DomainError('coil diameter', element.coilDiameter_m, '≥ 2 bores');
      wall[e] = wallResistance(element.outerDiameter_m, element.bore_m, element.wallConductivity_WmK);
      if (element.pieces.length === 0) throw new DomainError(`pieces of element ${e}`, 0, '≥ 1');
      for (const piece of element.pieces) {
        if (!(piece.length_m > 0 && piece.length_m < Infinity))
          throw new DomainError(`length in element ${e}`, piece.length_m, '(0, ∞) m');
        length[e] += piece.length_m;
        pieceLength.push(piece.length_m);
        pieceOutside.push(piece.outside);
      }
    } else if (element.kind === 'rated' && !(element.area_m2 > 0)) {
      throw new DomainError('area', element.area_m2, '> 0 m²');
    }
    pieceStart[e + 1] = pieceLength.length;
  });
  return {
    description,
    from,
    to,
    pieceStart,
    pieceLength_m: Float64Array.from(pieceLength),
    pieceOutside: Int32Array.from(pieceOutside),
    length_m: length,
    wall_mKW: wall,
    surface_C: new Float64Array(pieceLength.length),
    water_C: new Float64Array(n),
    started: false,
  };
}

function checkNeighbours(pipe: PanelPipe, elements: PanelDescription['elements']): void {
  const near = pipe.neighbours;
  if (!near) return;
  for (const j of [near.left, near.right])
    if (j !== -1 && elements[j]?.kind !== 'pipe') throw new DomainError('neighbour', j, 'a pipe, or −1');
  if (!(near.view >= 0 && near.view <= 1)) throw new DomainError('view of neighbours', near.view, '[0, 1]');
  if (!(near.emittance > 0 && near.emittance <= 1))
    throw new DomainError('emittance', near.emittance, '(0, 1]');
}
