/** The face of a connector, seen from the wires or from the mating side; the other one is its mirror. */

import type { ConnectorView, WayView } from "../../app/types";
import { colourOf, type Found, wireInWords } from "./state";
import { words } from "./words";

export type Side = "wire" | "mating";

interface FaceProps {
  connector: ConnectorView;
  side: Side;
  found: Found;
  now: string | null;
  onWay: (way: string) => void;
}

export function Face({ connector, side, found, now, onWay }: FaceProps) {
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
          <Way
            key={way.way}
            way={way}
            side={side}
            connector={connector}
            found={found}
            now={now}
            onWay={onWay}
          />
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

function Way({ way, side, connector, found, now, onWay }: { way: WayView } & FaceProps) {
  const { wires } = connector;
  const seen = found[way.way];
  const differs = way.way in found && seen !== way.should;
  const spoken = `Way ${way.way}: should be ${wireInWords(wires, way.should)}, found ${wireInWords(wires, seen)}`;
  return (
    <button
      type="button"
      class={differs ? "way way-differs" : "way"}
      style={{ gridColumn: columnOf(way, side) + 1, gridRow: way.row + 1 }}
      aria-label={spoken}
      aria-pressed={now === way.way}
      onClick={() => onWay(way.way)}
    >
      <span class="way-number">
        {way.way}
        {differs && " ≠"}
      </span>
      <span class="way-should">{colourOf(wires, way.should)}</span>
      <span class="way-found">{colourOf(wires, seen)}</span>
    </button>
  );
}

/** Says which line of a way is which. */
export function FaceKey({ side }: { side: Side }) {
  return (
    <p class="face-key soft">
      {side === "wire" ? words.fromWires : words.fromMating} In each way: number,{" "}
      {words.should.toLowerCase()}, <b>{words.found.toLowerCase()}</b>.
    </p>
  );
}
