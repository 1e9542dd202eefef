/** The expected band on its scale, and the mark of a reading that moves along it. */

import type { Band } from "../types";

interface ScaleProps {
  band: Band;
  /** Position of the reading on the scale, in the band's unit. */
  mark?: number | null;
  /** Stands above the line. */
  word?: string;
}

const place = (band: Band, value: number) => {
  const share = (value - band.scale_low) / (band.scale_high - band.scale_low || 1);
  return Math.min(1, Math.max(0, share));
};

/** Without a mark between thousands: 14,400 is fourteen and a bit to half the world. */
const ends = new Intl.NumberFormat(undefined, { maximumSignificantDigits: 3, useGrouping: false });

/** A band told in thousandths ("4–12 mV") has the ends of its scale in thousandths too. */
const endOf = (band: Band, value: number) =>
  ends.format(/ m[VA]$/.test(band.text) ? value * 1000 : value).replace("-", "−");

export function Scale({ band, mark = null, word }: ScaleProps) {
  return (
    <div class="scale" aria-hidden="true">
      <svg width="100%" height="36" aria-hidden="true">
        <line class="scale-line" x1="0" x2="100%" y1="26" y2="26" />
        {[band, ...band.others].map(({ low, high }) => (
          <Stretch key={low} from={place(band, low) * 100} to={place(band, high) * 100} />
        ))}
        {mark !== null && <Mark at={place(band, mark) * 100} />}
      </svg>
      <span class="scale-low">{endOf(band, band.scale_low)}</span>
      {word && <span class="scale-word">{word}</span>}
      <span class="scale-high">{endOf(band, band.scale_high)}</span>
    </div>
  );
}

function Stretch({ from, to }: { from: number; to: number }) {
  const x = `${Math.min(from, 96)}%`;
  return (
    <rect class="scale-band" x={x} width={`${Math.max(4, to - from)}%`} y="16" height="20" rx="5" />
  );
}

/** Drawn in a nested picture so that it can stand at a share of the width. */
function Mark({ at }: { at: number }) {
  return (
    <svg class="mark" x={`${at}%`} overflow="visible" aria-hidden="true">
      <path d="M-10 0 H10 L2 16 V36 H-2 V16 Z" />
    </svg>
  );
}
