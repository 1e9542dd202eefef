/** The diagram itself: conductors, symbols, and places to tap. */

import { view } from "../../app/job";
import type { Diagram, Line, Symbol as Part, PlaceView } from "../../app/types";
import { SymbolShape } from "./symbols";

interface DrawingProps {
  diagram: Diagram;
  /** Pixels of one grid square. */
  scale: number;
  onPlace: (id: string) => void;
}

export function Drawing({ diagram, scale, onPlace }: DrawingProps) {
  const now = new Set(
    view.value?.path.filter(({ state }) => state === "now").map(({ place }) => place),
  );
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: its parts and places have names of their own
    <svg
      class="circuit"
      width={diagram.width * scale}
      height={diagram.height * scale}
      viewBox={`0 0 ${diagram.width} ${diagram.height}`}
    >
      {diagram.lines.map((line) => (
        <Conductor key={`${line.element}${line.points[0]}`} line={line} />
      ))}
      {diagram.symbols.map((symbol) => (
        <Placed key={symbol.element} symbol={symbol} scale={scale} />
      ))}
      {diagram.places.map((place) => (
        <Place
          key={place.id}
          place={place}
          scale={scale}
          now={now.has(place.id)}
          onPlace={onPlace}
        />
      ))}
    </svg>
  );
}

/** A line is under suspicion from one case in a hundred. */
const SUSPECT = 0.01;

function Conductor({ line }: { line: Line }) {
  const points = line.points.map(([x, y]) => `${x},${y}`).join(" ");
  const open = line.suspect >= SUSPECT;
  return (
    <>
      <polyline class={open ? "wire wire-open" : "wire"} points={points} />
      {open && <polyline class="wire-ticks" points={points} />}
    </>
  );
}

function Placed({ symbol, scale }: { symbol: Part; scale: number }) {
  const kind = symbol.suspect >= SUSPECT ? "symbol symbol-open" : "symbol";
  const text = 14 / scale;
  return (
    <g class={kind} transform={`translate(${symbol.x} ${symbol.y})`}>
      <title>{spoken(symbol)}</title>
      <SymbolShape kind={symbol.kind} />
      <text class="symbol-label" x={0.45} y={text * 0.35} font-size={text}>
        {symbol.cleared ? "✓ " : ""}
        {symbol.label || symbol.name}
      </text>
    </g>
  );
}

function spoken({ name, cleared, suspect }: Part): string {
  if (cleared) return `${name}, ruled out`;
  return suspect >= SUSPECT ? `${name}, still possible` : name;
}

interface PlaceProps {
  place: PlaceView;
  scale: number;
  now: boolean;
  onPlace: (id: string) => void;
}

function Place({ place, scale, now, onPlace }: PlaceProps) {
  const open = () => onPlace(place.id);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      class={place.measured ? "place place-measured" : "place"}
      transform={`translate(${place.x} ${place.y}) scale(${1 / scale})`}
      role="button"
      tabIndex={0}
      aria-label={[place.name, place.measured].filter(Boolean).join(": ")}
      onClick={open}
      onKeyDown={(event) => event.key === "Enter" && open()}
    >
      <circle class="place-touch" r="28" />
      {now && <circle class="place-ring" r="14" />}
      <circle class="place-dot" r="7" />
      {place.measured && (
        <text class="place-value" x="12" y="-8">
          {place.measured}
        </text>
      )}
    </g>
  );
}
