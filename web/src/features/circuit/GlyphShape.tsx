/** One sign between two ends: its leads, and its outline turned along the axis. */

import type { Glyph } from "./picture";
import { EARTH, signOf } from "./signs";

export function GlyphShape({ glyph }: { glyph: Glyph }) {
  const { kind, x1, y1, x2, y2 } = glyph;
  switch (kind) {
    case "line":
      return <line class="symbol-line" x1={x1} y1={y1} x2={x2} y2={y2} />;
    case "link":
      return <line class="symbol-link" x1={x1} y1={y1} x2={x2} y2={y2} />;
    case "dot":
      return <circle class="dot" cx={x1} cy={y1} r="0.07" />;
    case "box":
      return <Box glyph={glyph} />;
    case "fold":
      return <FoldSign glyph={glyph} />;
    case "earth":
      return <EarthSign glyph={glyph} />;
    default:
      return <Sign glyph={glyph} />;
  }
}

function Box({ glyph: { x1, y1, x2, y2 } }: { glyph: Glyph }) {
  const x = Math.min(x1, x2);
  const y = Math.min(y1, y2);
  return (
    <rect class="symbol-box" x={x} y={y} width={Math.abs(x2 - x1)} height={Math.abs(y2 - y1)} />
  );
}

/** Sheets on one another: more lies behind. */
function FoldSign({ glyph: { x1, y1, x2, y2 } }: { glyph: Glyph }) {
  return (
    <>
      {[BEHIND, BEHIND / 2, 0].map((back) => (
        <rect
          key={back}
          class="fold-sheet"
          x={x1 + back}
          y={y1 + BEHIND - back}
          width={x2 - x1 - 2 * back}
          height={y2 - y1 - BEHIND}
          rx="0.08"
        />
      ))}
    </>
  );
}

/** How far the hindmost sheet looks out, in grid units. */
const BEHIND = 0.14;

function EarthSign({ glyph: { x1, y1, x2, y2 } }: { glyph: Glyph }) {
  const foot = y2 - 0.26;
  return (
    <>
      <line class="symbol-line" x1={x1} y1={y1} x2={x2} y2={foot} />
      <path class="symbol-line" d={EARTH} transform={`translate(${x2} ${foot})`} />
    </>
  );
}

function Sign({ glyph: { kind, x1, y1, x2, y2 } }: { glyph: Glyph }) {
  const { half, path } = signOf(kind);
  const long = Math.hypot(x2 - x1, y2 - y1);
  const turn = (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI - 90;
  const end = Math.max(long / 2, half);
  const middle = `translate(${(x1 + x2) / 2} ${(y1 + y2) / 2}) rotate(${turn})`;
  return (
    <path
      class="symbol-line"
      transform={middle}
      d={`M0 ${-end} V${-half} M0 ${half} V${end} ${path}`}
    />
  );
}
