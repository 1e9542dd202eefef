/** Numbers as the region writes them, and typed numbers as the core reads them. */

/** The region's decimal mark: "," or ".". */
export const decimalMark =
  new Intl.NumberFormat().formatToParts(1.5).find((part) => part.type === "decimal")?.value ?? ".";

/** A typed number as shown: the region's mark, a true minus sign. */
export function shown(typed: string): string {
  return typed.replace(/[.,]/, decimalMark).replace("-", "−");
}

const FACTORS: Record<string, number> = {
  mV: 1e-3,
  V: 1,
  mΩ: 1e-3,
  Ω: 1,
  kΩ: 1e3,
  MΩ: 1e6,
  mA: 1e-3,
  A: 1,
};

/** A typed number in the instrument's base unit (V, A or Ω), or null where it is no number. */
export function inBaseUnit(typed: string, unit: string): number | null {
  const value = Number(typed.replace(",", "."));
  const factor = FACTORS[unit];
  if (typed.trim() === "" || !Number.isFinite(value) || factor === undefined) return null;
  return value * factor;
}

/** A share between 0 and 1 as a whole percentage that is never 0 or 100. */
export function percent(share: number): string {
  return `${Math.min(99, Math.max(1, Math.round(share * 100)))} %`;
}
