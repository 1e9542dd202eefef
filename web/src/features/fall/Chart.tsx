/** The places from top to bottom, volts from left to right: the line falls to the left. */

import { show } from "../../app/route";
import type { FallPoint, FallView } from "../../app/types";
import { words } from "./words";

/** Height of a place's row, in pixels. */
const ROW = 52;
/** Room at the side of the chart for marks, as a share of its width. */
const EDGE = 0.06;

const middle = (row: number) => (row + 0.5) * ROW;

export function Chart({ told }: { told: FallView }) {
  const { points, lowest, highest } = told;
  const at = (volts: number) =>
    100 * (EDGE + ((1 - 2 * EDGE) * (volts - lowest)) / (highest - lowest));
  const height = points.length * ROW;
  const band = [
    ...points.map(({ low }, row) => `${at(low)},${middle(row)}`),
    ...points.map(({ high }, row) => `${at(high)},${middle(row)}`).reverse(),
  ].join(" ");
  return (
    <section class="chart" aria-label={words.chart}>
      <div class="chart-scale" aria-hidden="true">
        <span style={{ left: `${at(0)}%` }}>0</span>
        <span style={{ left: `${at(highest)}%` }}>{highest} V</span>
      </div>
      <div class="chart-field" style={{ height: `${height}px` }}>
        <svg
          class="chart-lines"
          viewBox={`0 0 100 ${height}`}
          preserveAspectRatio="none"
          aria-hidden="true"
        >
          <line class="chart-zero" x1={at(0)} x2={at(0)} y1="0" y2={height} />
          <polygon class="chart-band" points={band} />
          <polyline class="chart-suspect" points={lineOf(points, ({ suspect }) => suspect, at)} />
          <polyline class="chart-read" points={lineOf(points, ({ measured }) => measured, at)} />
          <Fallen told={told} at={at} />
        </svg>
        <svg class="chart-marks" width="100%" height={height} aria-hidden="true">
          {points.map((point, row) => (
            <Mark key={point.place} point={point} x={at(shownAt(point))} y={middle(row)} />
          ))}
        </svg>
        {points.map((point, row) => (
          <button
            key={point.place}
            type="button"
            class="chart-row"
            style={{ top: `${row * ROW}px`, height: `${ROW}px` }}
            aria-label={spoken(point)}
            onClick={() => show("place", point.place)}
          >
            {point.short}
          </button>
        ))}
      </div>
    </section>
  );
}

type At = (volts: number) => number;

/** A line through the places of which a value is known. */
function lineOf(points: FallPoint[], value: (point: FallPoint) => number | null, at: At): string {
  return points
    .map((point, row) => ({ volts: value(point), row }))
    .flatMap(({ volts, row }) => (volts === null ? [] : [`${at(volts)},${middle(row)}`]))
    .join(" ");
}

/** The stretch in which too much falls, thick and ticked; towards the supply or the body to the edge. */
function Fallen({ told: { points, fall_from, fall_to }, at }: { told: FallView; at: At }) {
  if (fall_from < 0 && fall_to < 0) return null;
  const [top, foot] = [points[fall_from], points[fall_to]];
  const start = top ? (top.measured ?? top.expected) : (points[0]?.expected ?? 0);
  const end = foot ? (foot.measured ?? foot.expected) : 0;
  const from = top ? middle(fall_from) : 0;
  const to = foot ? middle(fall_to) : points.length * ROW;
  const ends = { x1: at(start), x2: at(end), y1: from, y2: to };
  return (
    <>
      <line class="chart-fallen" {...ends} />
      <line class="chart-ticks" {...ends} />
    </>
  );
}

const shownAt = ({ measured, expected }: FallPoint) => measured ?? expected;

function Mark({ point, x, y }: { point: FallPoint; x: number; y: number }) {
  const left = x > 50;
  const beside = {
    x: `${x}%`,
    dx: left ? -14 : 14,
    y: y + 5,
    "text-anchor": left ? "end" : "start",
  } as const;
  if (point.measured === null)
    return (
      <text class="chart-band-text" {...beside}>
        {point.band}
      </text>
    );
  return (
    <>
      {point.outside ? (
        <svg x={`${x}%`} y={y} overflow="visible" aria-hidden="true">
          <path class="chart-mark" d="M0 -11 L11 0 L0 11 L-11 0 Z" />
        </svg>
      ) : (
        <circle class="chart-mark" cx={`${x}%`} cy={y} r="7" />
      )}
      <text class="chart-value" {...beside}>
        {point.measured_text}
      </text>
    </>
  );
}

function spoken({ name, band, measured_text, outside }: FallPoint): string {
  return measured_text
    ? words.spokenRead(name, band, measured_text, outside)
    : words.spoken(name, band);
}
