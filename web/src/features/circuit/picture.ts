/** Names the page uses for the pieces of the core's diagram. */

export type {
  Diagram as Picture,
  Glyph,
  Label,
  Line as Wire,
  PlaceView as Spot,
  Symbol as Part,
} from "../../app/types";

/** Free margin around the drawing, in grid units, beside its own. */
export const MARGIN = 0.1;

/** A point of the diagram as x and y. */
export const pointOf = (pair: readonly unknown[]): [number, number] => [
  Number(pair[0]),
  Number(pair[1]),
];
