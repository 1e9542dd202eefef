import type { Phone } from "./database";

/**
 * What the store held when it was last written, kept beside the database. It tells a new phone from
 * an emptied one. Site data cleared by hand takes both; a browser that drops or resets a database of
 * its own accord leaves this.
 */
export interface Witness {
  readonly device: string;
  readonly last: number;
  readonly count: number;
  readonly exported: string;
}

const KEY = "footwell.witness";

export function readWitness(): Witness | undefined {
  try {
    return witnessIn(JSON.parse(localStorage.getItem(KEY) ?? "null"));
  } catch {
    // Refused or unreadable: no witness, which is what a new phone has.
    return undefined;
  }
}

function witnessIn(value: unknown): Witness | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  const { device, last, count, exported } = value as Record<string, unknown>;
  if (typeof device !== "string" || typeof last !== "number" || typeof count !== "number") return undefined;
  return { device, last, count, exported: typeof exported === "string" ? exported : "" };
}

function writeWitness(witness: Witness): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(witness));
  } catch {
    // The events are safe without it; only the notice of an emptied store would be missing.
  }
}

/** Note what is stored. Another tab may have noted more already: the larger count stays. */
export function noteStored(phone: Phone, count: number): void {
  const known = readWitness();
  if (known && known.count >= count) return;
  writeWitness({ device: phone.device, last: phone.n, count, exported: known?.exported ?? "" });
}

export function noteExported(at: string): void {
  const known = readWitness();
  if (known) writeWitness({ ...known, exported: at });
}

export function forgetWitness(): void {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // Refused storage holds no witness.
  }
}

/** The sentence about what is missing, or "" when everything noted is there. */
export function missing(phone: Phone, count: number): string {
  const known = readWitness();
  if (!known) return "";
  const resetCounter = known.device === phone.device && phone.n < known.last;
  if (count >= known.count && !resetCounter) return "";
  const copy = known.exported
    ? `Open your last export, made on ${known.exported.slice(0, 10)}.`
    : "Nothing was exported from this phone; a link you sent earlier holds its job.";
  return `The browser has removed saved work: ${known.count} entries were stored on this phone, ${count} are there now. ${copy}`;
}
