import type { Database } from "./database";
import { asNamed, type StoredEvent } from "./event";
import { fileOf, JOBS_FILE } from "./file";
import { storedEvents } from "./jobs";
import { asText, photoIn, photoNamed } from "./photos";
import { standingOf } from "./withdrawn";

export interface Exported {
  readonly text: string;
  /** How many photos found no room in it, and the jobs they belong to. */
  readonly leftOut: number;
  readonly incomplete: ReadonlySet<string>;
  /** Entries alone are more than a phone takes in again: no job is safe in this file. */
  readonly tooLarge: boolean;
}

/** Of a photo's field, beside its base64. */
const FIELD_BYTES = ',"jpeg":""'.length;

/**
 * One job, or everything, as a file. It holds as many photos, the newest first, as leave it so many bytes at
 * most: a phone takes in no larger one again.
 */
export async function exportedFrom(
  db: Database,
  job?: string,
  most = JOBS_FILE.most,
): Promise<Exported> {
  const events = await storedEvents(db, job);
  const jpegs = new Map<StoredEvent, string>();
  const without: StoredEvent[] = [];
  const bytes = new Blob([await fileOf(events)]).size;
  let room = most - bytes;
  for (const event of withPhotos(events).reverse()) {
    const photo = await photoIn(db, event.job, photoNamed(event) ?? "");
    const jpeg = photo ? asText(photo) : "";
    if (jpeg) room -= jpeg.length + FIELD_BYTES;
    if (jpeg && room >= 0) jpegs.set(event, jpeg);
    else if (jpeg) without.push(event);
  }
  const tooLarge = bytes > most;
  const incomplete = new Set((tooLarge ? events : without).map((event) => event.job));
  return { text: await fileOf(events, jpegs), leftOut: without.length, incomplete, tooLarge };
}

/** What was removed is not handed on: of that the file carries the entry alone. */
function withPhotos(events: readonly StoredEvent[]): StoredEvent[] {
  const named = events.map((stored) => ({ ...asNamed(stored), stored }));
  const jobs = new Set(events.map(({ job }) => job));
  return Array.from(jobs)
    .flatMap((job) => standingOf(named.filter((event) => event.job === job)))
    .map(({ stored }) => stored)
    .filter((stored) => stored.line === undefined && photoNamed(stored) !== undefined);
}
