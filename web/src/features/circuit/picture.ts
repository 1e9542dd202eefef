/** Names the page uses for the pieces of the core's diagram, and sizes of it. */

import type { Diagram as Picture, Line as Wire } from "../../app/types";

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

/** Room for the mark before the words of a part that is ruled out, in grid units. */
const MARK = 0.5;

/** Width of the whole drawing, in grid units. */
export const widthOf = ({ width, symbols }: Pick<Picture, "width" | "symbols">) =>
  width + 2 * MARGIN + (symbols.some(({ cleared }) => cleared) ? MARK : 0);

/** The middle of the longest stretch of a wire. */
export function middleOf({ points }: Pick<Wire, "points">): [number, number] {
  let longest = -1;
  let middle = pointOf(points[0] ?? [0, 0]);
  points.slice(1).forEach((point, at) => {
    const [x1, y1] = pointOf(points[at] ?? point);
    const [x2, y2] = pointOf(point);
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length > longest) {
      longest = length;
      middle = [(x1 + x2) / 2, (y1 + y2) / 2];
    }
  });
  return middle;
}

/** A point of the diagram as x and y. */
export const pointOf = (pair: readonly unknown[]): [number, number] => [
  Number(pair[0]),
  Number(pair[1]),
];
