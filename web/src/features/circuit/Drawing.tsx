/** The diagram itself: conductors, symbols, and places to tap. */

import { view } from "../../app/job";
import type { BuildEnd } from "../../app/types";
import { GlyphShape } from "./GlyphShape";
import {
  type Label,
  MARGIN,
  middleOf,
  type Part,
  type Picture,
  pointOf,
  type Spot,
  type Wire,
  widthOf,
} from "./picture";
import { open } from "./useDiagram";
import { words } from "./words";

interface DrawingProps {
  picture: Picture;
  /** Pixels of one grid square. */
  scale: number;
  onPlace: (id: string) => void;
  /** Ends that lead nowhere yet, while it is being built. */
  ends?: BuildEnd[];
}

export function Drawing({ picture, scale, onPlace, ends = [] }: DrawingProps) {
  const width = widthOf(picture);
  const height = picture.height + 2 * MARGIN;
  const path = view.value?.path ?? [];
  // The plumb line goes through the load in question; a check may be beside it.
  const asked = pointsOfCheck();
  const now = new Set([
    ...path.filter(({ state }) => state === "now").map(({ place }) => place),
    ...asked,
  ]);
  const held = heldAt(picture, new Set(asked));
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: its parts and places have names of their own
    <svg
      class="circuit"
      width={width * scale}
      height={height * scale}
      viewBox={`${-MARGIN} ${-MARGIN} ${width} ${height}`}
    >
      {picture.lines.map((wire) => (
        <Conductor key={wire.element} wire={wire} />
      ))}
      {picture.dots.map(pointOf).map(([x, y]) => (
        <circle key={`${x},${y}`} class="dot" cx={x} cy={y} r="0.07" />
      ))}
      {picture.symbols.map((part) =>
        part.folded?.length ? (
          <Fold key={part.folded[0]} part={part} />
        ) : (
          <Drawn key={`${part.element} ${part.x} ${part.y}`} part={part} />
        ),
      )}
      {picture.places.filter(isDrawn).map((spot) => (
        <Place key={spot.id} spot={spot} scale={scale} now={now.has(spot.id)} onPlace={onPlace} />
      ))}
      {held.map(([x, y]) => (
        <circle
          key={`${x},${y}`}
          class="place-ring"
          r="17"
          transform={`translate(${x} ${y}) scale(${1 / scale})`}
        />
      ))}
      {ends.map((end) => (
        <OpenEnd key={end.point} end={end} scale={scale} />
      ))}
    </svg>
  );
}

function pointsOfCheck(): string[] {
  const step = view.value?.step;
  return step?.kind === "check" ? step.check.place_points : [];
}

/** Where the check's own part or wire is, one that is looked at or clamped and not probed. */
function heldAt({ symbols, lines }: Picture, asked: Set<string>): Point[] {
  return [
    ...symbols.filter(({ element }) => asked.has(element)).map(({ x, y }): Point => [x, y]),
    ...lines.filter(({ element }) => asked.has(element)).map(middleOf),
  ];
}

type Point = [number, number];

/** A part is still possible from one case in a hundred. */
const POSSIBLE = 0.01;

function Conductor({ wire }: { wire: Wire }) {
  const points = wire.points.map(([x, y]) => `${x},${y}`).join(" ");
  const isOpen = wire.suspect >= POSSIBLE;
  return (
    <>
      <polyline class={isOpen ? "wire wire-open" : "wire"} points={points} />
      {isOpen && <polyline class="wire-ticks" points={points} />}
      <Words label={wire.label} />
    </>
  );
}

function Drawn({ part }: { part: Part }) {
  const isOpen = part.suspect >= POSSIBLE;
  return (
    <g class={isOpen ? "symbol symbol-open" : "symbol"}>
      <title>{spoken(part)}</title>
      {part.glyphs.map((glyph) => (
        <GlyphShape
          key={`${glyph.kind} ${glyph.x1} ${glyph.y1} ${glyph.x2} ${glyph.y2}`}
          glyph={glyph}
        />
      ))}
      {part.glyphs.map(
        ({ label, x1, y1 }) => label && <Words key={`words ${x1} ${y1}`} label={label} />,
      )}
      <Words label={part.label} mark={part.cleared ? "✓ " : ""} />
    </g>
  );
}

/** Branches folded away: a tap opens them. */
function Fold({ part }: { part: Part }) {
  const press = () => open(part.folded ?? []);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      class="fold"
      role="button"
      tabIndex={0}
      aria-label={words.opens(part.name)}
      onClick={press}
      onKeyDown={(event) => event.key === "Enter" && press()}
    >
      {part.glyphs.map((glyph) => (
        <GlyphShape key={glyph.kind} glyph={glyph} />
      ))}
      <Words label={part.label} />
    </g>
  );
}

/** A broken ring; the end in hand has a second one. */
function OpenEnd({ end, scale }: { end: BuildEnd; scale: number }) {
  return (
    <g
      class="open-end"
      data-end={end.point}
      transform={`translate(${end.x} ${end.y}) scale(${1 / scale})`}
    >
      <circle r="10" />
      {end.now && <circle r="15" />}
    </g>
  );
}

const isDrawn = ({ drawn }: Spot) => drawn !== false;

function spoken({ name, cleared, suspect }: Part): string {
  if (cleared) return `${name}, ruled out`;
  return suspect >= POSSIBLE ? `${name}, still possible` : name;
}

/** Height of one line of words, in grid units. */
const LINE = 0.36;

function Words({ label: { lines, x, y }, mark = "" }: { label: Label; mark?: string }) {
  const first = y - ((lines.length - 1) * LINE) / 2 + LINE * 0.32;
  return (
    <text class="words">
      {lines.map((line, index) => (
        <tspan key={line} x={x} y={first + index * LINE}>
          {index === 0 ? mark : ""}
          {line}
        </tspan>
      ))}
    </text>
  );
}

/** Pixels of a grid square below which places are drawn smaller, so that they hide nothing. */
const READABLE = 36;

interface PlaceProps {
  spot: Spot;
  scale: number;
  now: boolean;
  onPlace: (id: string) => void;
}

function Place({ spot, scale, now, onPlace }: PlaceProps) {
  const press = () => onPlace(spot.id);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      class={spot.measured ? "place place-measured" : "place"}
      transform={`translate(${spot.x} ${spot.y}) scale(${1 / scale})`}
      role="button"
      tabIndex={0}
      aria-label={[spot.name, spot.measured].filter(Boolean).join(": ")}
      onClick={press}
      onKeyDown={(event) => event.key === "Enter" && press()}
    >
      <circle class="place-touch" r="24.5" />
      <g transform={`scale(${Math.min(1, scale / READABLE)})`}>
        {now && <circle class="place-ring" r="14" />}
        <circle class="place-dot" r="6" />
      </g>
      {spot.measured && (
        <text class="place-value" x="17" y="5">
          {spot.measured}
        </text>
      )}
    </g>
  );
}
