/** The plumb line: the current's path from supply to earth, and where the cause can still lie. */

import { show } from "../route";
import type { JobView, PathPoint } from "../types";

export function Plumb({ view }: { view: JobView }) {
  return (
    <button
      type="button"
      class="plumb"
      aria-label={`+${view.system_volts} to earth: ${view.suspects.left_words}. Open the circuit`}
      onClick={() => show("circuit")}
    >
      <span class="plumb-volts" aria-hidden="true">
        +{view.system_volts}
      </span>
      <svg class="plumb-line" width="48" height="100%" aria-hidden="true">
        <line class="plumb-wire" x1="24" x2="24" y1="0" y2="100%" />
        {view.path.map((point, index) => (
          <Stretch key={`s${point.place}`} point={point} index={index} count={view.path.length} />
        ))}
        {view.path.map((point, index) => (
          <Dot key={point.place} point={point} y={at(index, view.path.length)} />
        ))}
      </svg>
      <svg class="plumb-earth" width="32" height="18" aria-hidden="true">
        <path d="M2 2 H30 M8 9 H24 M13 16 H19" />
      </svg>
    </button>
  );
}

/** Height of a point on the line, as a percentage of it. */
const at = (index: number, count: number) => ((index + 1) / (count + 1)) * 100;

function Stretch({ point, index, count }: { point: PathPoint; index: number; count: number }) {
  if (!point.suspect_after) return null;
  const from = `${at(index, count)}%`;
  const to = `${at(index + 1, count)}%`;
  return (
    <>
      <line class="plumb-open" x1="24" x2="24" y1={from} y2={to} />
      <line class="plumb-ticks" x1="24" x2="24" y1={from} y2={to} />
    </>
  );
}

function Dot({ point, y }: { point: PathPoint; y: number }) {
  if (point.state === "now")
    return (
      <>
        <circle class="plumb-ring" cx="24" cy={`${y}%`} r="13" />
        <circle class="plumb-dot" cx="24" cy={`${y}%`} r="4" />
      </>
    );
  if (point.state !== "measured") return null;
  return <circle class="plumb-dot" cx="24" cy={`${y}%`} r="8" />;
}
