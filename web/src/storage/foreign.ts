/** Values that others wrote: looked at piece by piece, never taken over as they are. */

/** The value of JSON text, or undefined where it is none. */
export function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** The fields of an object; of anything else, none. */
export function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null ? (value as Record<string, unknown>) : {};
}

export function isName(value: unknown, longest: number): value is string {
  return typeof value === "string" && value !== "" && value.length <= longest;
}

const TURNS = /[\u202a-\u202e\u2066-\u2069]/g;

/** Text as it is told: without signs that turn the direction of what stands behind it. */
export const told = (text: string): string => text.replace(TURNS, "");

/** A number or format of an event, within what the core reads. */
export function isCount(value: unknown): value is number {
  return Number.isInteger(value) && Number(value) >= 1 && Number(value) <= 1e9;
}
