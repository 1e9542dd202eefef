/** The diagram as the core lays it out, in grid units from the upper left. */

export interface Label {
  lines: string[];
  x: number;
  y: number;
}

export interface Glyph {
  kind: string;
  x1: number;
  y1: number;
  x2: number;
  y2: number;
  branch: string;
  label: Label | null;
}

export interface Part {
  element: string;
  kind: string;
  name: string;
  label: Label;
  x: number;
  y: number;
  width: number;
  height: number;
  glyphs: Glyph[];
  suspect: number;
  cleared: boolean;
}

export interface Wire {
  element: string;
  label: Label;
  points: [number, number][];
  suspect: number;
}

export interface Spot {
  id: string;
  name: string;
  x: number;
  y: number;
  measured: string;
  minutes: number;
}

export interface Picture {
  width: number;
  height: number;
  symbols: Part[];
  lines: Wire[];
  dots: [number, number][];
  places: Spot[];
}

/** Free margin around the drawing, in grid units: places at the edge can still be tapped. */
export const MARGIN = 0.6;
