import type { Contents } from "./database";
import { fieldsOf, parsed } from "./foreign";

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
    return witnessIn(localStorage.getItem(KEY) ?? "");
  } catch {
    // Refused: no witness, which is what a new phone has.
    return undefined;
  }
}

function witnessIn(text: string): Witness | undefined {
  const { device, last, count, exported } = fieldsOf(parsed(text));
  if (typeof device !== "string" || typeof last !== "number" || typeof count !== "number")
    return undefined;
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
export function noteStored({ phone, count }: Contents): void {
  const known = readWitness();
  if (known && known.device === phone.device && known.count >= count) return;
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

/** True when the store has to be looked at again: it may have been emptied under the open page. */
export function isDoubtful({ phone, count }: Contents): boolean {
  const known = readWitness();
  return known !== undefined && (known.device !== phone.device || known.count > count);
}

/**
 * The sentence about what is missing, or "" when all that was noted is there. `noted` has to be read
 * before the store is: another tab may add to both in between. New work does not hide the loss of
 * old: `ofNoted` counts the events that are left of the phone that was noted.
 */
export function missing(noted: Witness | undefined, count: number, ofNoted: number): string {
  if (!noted) return "";
  const gone = Math.max(noted.count - count, noted.last - ofNoted);
  if (gone <= 0) return "";
  const copy = noted.exported
    ? `Open your last export, made on ${noted.exported.slice(0, 10)}.`
    : "Nothing was exported from this phone; a link you sent earlier holds its job.";
  return `The browser has removed saved work: ${gone} of ${noted.count} entries stored on this phone are gone. ${copy}`;
}
