/** A reading typed without the core, and the event it becomes. */

import { inBaseUnit } from "../../app/number";
import type { Controls, ReadingTaken } from "../../app/types";

export interface Typed {
  red: string;
  black: string;
  typed: string;
  unit: "V" | "mV" | "Ω" | "A";
  controls: Controls;
}

export const EMPTY: Typed = { red: "", black: "earth", typed: "", unit: "V", controls: {} };

const INSTRUMENT = { V: "volts", mV: "volts", Ω: "ohms", A: "clamp" } as const;

/** A clamp goes around a wire, probes go on places. */
export const isClamp = ({ unit }: Typed) => unit === "A";

/** Null while place or number are missing. */
export function bodyOf({ red, black, typed, unit, controls }: Typed): ReadingTaken | null {
  const value = inBaseUnit(typed, unit);
  if (value === null || red === "") return null;
  return {
    instrument: INSTRUMENT[unit],
    red,
    black: unit === "A" ? "" : black,
    setup: { controls },
    value,
    typed: `${typed} ${unit}`,
  };
}
