import type { Ink } from './palette';

export type Point = readonly [x: number, y: number];

/** Drawn from the first to the last; also the layer names of files for other drawing programs. */
export const LAYERS = ['grid', 'ghost', 'water', 'built', 'dimension', 'text', 'flag'] as const;
export type Layer = (typeof LAYERS)[number];

/** A place along a stroke, 0…1, and how warm the water is there, 0…1. */
export interface HeatStop {
  at: number;
  heat: number;
}

interface Common {
  layer: Layer;
  /** Names the thing for the face that shows it. */
  id?: string;
}

interface Stroke {
  ink: Ink;
  width: number;
  dash?: readonly number[];
  cap?: 'round' | 'butt';
}

export interface Line extends Common, Stroke {
  kind: 'line';
  from: Point;
  to: Point;
}
export interface Polyline extends Common, Stroke {
  kind: 'polyline';
  points: readonly Point[];
  closed?: boolean;
  fill?: Ink;
  /** Filled with water of this warmth. */
  fillHeat?: number;
  fillOpacity?: number;
}
/** Straight stroke coloured by the water in it. */
export interface WaterLine extends Common {
  kind: 'water';
  from: Point;
  to: Point;
  width: number;
  stops: readonly HeatStop[];
}
/** Bent stroke of water of one warmth. */
export interface WaterPath extends Common {
  kind: 'waterPath';
  points: readonly Point[];
  width: number;
  heat: number;
}
export interface Circle extends Common, Stroke {
  kind: 'circle';
  centre: Point;
  radius: number;
  fill?: Ink;
}
export interface Text extends Common {
  kind: 'text';
  at: Point;
  text: string;
  size: number;
  ink: Ink;
  weight?: 400 | 550 | 680;
  anchor?: 'start' | 'middle' | 'end';
  /** Clockwise. */
  turn_deg?: number;
  /** Ground laid behind the letters so that a line never runs through them. */
  halo?: Ink;
}

export type Item = Line | Polyline | WaterLine | WaterPath | Circle | Text;
export type DisplayList = readonly Item[];

/** Where a control stands on the drawing; `x, y` is its middle. */
export interface Anchor {
  id: string;
  x: number;
  y: number;
}

export interface Sheet {
  width: number;
  height: number;
  items: Item[];
  anchors: Anchor[];
}
