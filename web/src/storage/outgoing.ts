import type { Database } from "./database";
import { asNamed, type StoredEvent } from "./event";
import { fileOf } from "./file";
import { storedEvents } from "./jobs";
import { asText, photoIn, photoNamed } from "./photos";
import { standingOf } from "./withdrawn";

export interface Exported {
  readonly text: string;
  /** How many photos found no room in it, and the jobs they belong to. */
  readonly leftOut: number;
  readonly incomplete: ReadonlySet<string>;
}

/** Characters of photos in one file: with all events beside them a phone still takes it in again. */
const MOST_OF_PHOTOS = 40_000_000;

/** One job, or everything, as a file with so many characters of photos at most, the newest first. */
export async function exportedFrom(
  db: Database,
  job?: string,
  most = MOST_OF_PHOTOS,
): Promise<Exported> {
  const events = await storedEvents(db, job);
  const jpegs = new Map<StoredEvent, string>();
  const without: StoredEvent[] = [];
  let room = most;
  for (const event of withPhotos(events).reverse()) {
    const bytes = await photoIn(db, event.job, photoNamed(event) ?? "");
    const jpeg = bytes ? asText(bytes) : "";
    room -= jpeg.length;
    if (jpeg && room >= 0) jpegs.set(event, jpeg);
    else if (jpeg) without.push(event);
  }
  const incomplete = new Set(without.map((event) => event.job));
  return { text: await fileOf(events, jpegs), leftOut: without.length, incomplete };
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
