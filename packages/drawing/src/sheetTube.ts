import type { Point } from './display';

/** A tube as it lies on the sheet, for touching and for water that seems to move. */
export interface SheetTube {
  section: string;
  bank: string;
  position: number;
  from: Point;
  to: Point;
  width: number;
}
