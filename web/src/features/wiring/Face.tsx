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
  const rows = rowsOf(connector.ways, side);
  return (
    <div class={`face face-${side}`}>
      <p class="face-landmark">{connector.landmark}</p>
      {rows.map((row) => (
        <div class="face-row" key={row[0]?.way}>
          {row.map((way) => (
            <Way
              key={way.way}
              way={way}
              connector={connector}
              found={found}
              now={now}
              onWay={onWay}
            />
          ))}
        </div>
      ))}
    </div>
  );
}

function rowsOf(ways: WayView[], side: Side): WayView[][] {
  const rows = new Map<number, WayView[]>();
  for (const way of ways) rows.set(way.row, [...(rows.get(way.row) ?? []), way]);
  const turn = side === "wire" ? 1 : -1;
  return [...rows.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, row]) => row.sort((a, b) => turn * (a.column - b.column)));
}

function Way({ way, connector, found, now, onWay }: { way: WayView } & Omit<FaceProps, "side">) {
  const { wires } = connector;
  const seen = found[way.way];
  const differs = way.way in found && seen !== way.should;
  const spoken = `Way ${way.way}: should be ${wireInWords(wires, way.should)}, found ${wireInWords(wires, seen)}`;
  return (
    <button
      type="button"
      class={differs ? "way way-differs" : "way"}
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
export function FaceKey() {
  return (
    <p class="face-key soft">
      In each way: number, {words.should.toLowerCase()}, <b>{words.found.toLowerCase()}</b>.
    </p>
  );
}
