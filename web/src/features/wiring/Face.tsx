/** The face of a connector, seen from the wires or from the mating side; the other one is its mirror. */

import type { ConnectorView, WayView } from "../../app/types";
import { colourOf, type Found, wireInWords } from "./state";
import { words } from "./words";

export type Side = "wire" | "mating";

/** What stands in a way below its number, and what is read out. */
export interface Held {
  above: string;
  below: string;
  spoken: string;
  differs: boolean;
}

interface FaceProps {
  connector: ConnectorView;
  side: Side;
  held: (way: WayView) => Held;
  now: string | null;
  onWay: (way: string) => void;
}

export function Face({ connector, side, held, now, onWay }: FaceProps) {
  const columns = Math.max(...connector.ways.map(({ column }) => column)) + 1;
  const below = /bottom|below/.test(connector.landmark);
  const above = /top|above/.test(connector.landmark);
  return (
    <div class={`face face-${side}${below ? " face-tab-below" : ""}`}>
      <p class="face-landmark">
        {(above || below) && <span class="face-tab" aria-hidden="true" />}
        <span>{connector.landmark}</span>
      </p>
      <div class="face-grid" style={`--columns: ${columns}`}>
        {inOrder(connector.ways, side).map((way) => (
          <Way key={way.way} way={way} side={side} held={held(way)} now={now} onWay={onWay} />
        ))}
      </div>
    </div>
  );
}

const columnOf = (way: WayView, side: Side) => (side === "wire" ? way.column : way.mating_column);

/** Ways as they are read on this side, so that keys and speech go the way the eye goes. */
function inOrder(ways: WayView[], side: Side): WayView[] {
  return [...ways].sort((a, b) => a.row - b.row || columnOf(a, side) - columnOf(b, side));
}

/** A way as it should be above, as found below. */
export function compared({ wires }: ConnectorView, found: Found, way: WayView): Held {
  const seen = found[way.way];
  return {
    above: colourOf(wires, way.should),
    below: colourOf(wires, seen),
    differs: way.way in found && seen !== way.should,
    spoken: `Way ${way.number}: should be ${wireInWords(wires, way.should)}, found ${wireInWords(wires, seen)}`,
  };
}

interface WayProps {
  way: WayView;
  side: Side;
  held: Held;
  now: string | null;
  onWay: (way: string) => void;
}

function Way({ way, side, held, now, onWay }: WayProps) {
  return (
    <button
      type="button"
      class={held.differs ? "way way-differs" : "way"}
      style={{ gridColumn: columnOf(way, side) + 1, gridRow: way.row + 1 }}
      aria-pressed={now === way.way}
      onClick={() => onWay(way.way)}
    >
      <span class="unseen">{held.spoken}</span>
      <span class="way-number" aria-hidden="true">
        {way.number}
        {held.differs && " ≠"}
      </span>
      <span class="way-should" aria-hidden="true">
        {held.above}
      </span>
      <span class="way-found" aria-hidden="true">
        {held.below}
      </span>
    </button>
  );
}

/** Says which line of a way is which. */
export function FaceKey({ side, lines }: { side: Side; lines: [string, string] }) {
  const [above, below] = lines.map((line) => line.toLowerCase());
  return (
    <p class="face-key soft">
      {side === "wire" ? words.fromWires : words.fromMating} In each way: number, {above},{" "}
      <b>{below}</b>.
    </p>
  );
}
