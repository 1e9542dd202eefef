import type { Database, Transaction } from "./database";
import { type Bytes, type Event, type Photo, sha256 } from "./event";
import { fieldsOf, parsed } from "./foreign";
import { jpegSize } from "./jpeg";
import { steps } from "./steps";

/** The kind of entry that names a photo. */
const PHOTOGRAPHED = "connector photographed";

/** As text it fits the longest line of a file, with room for its entry. */
export const MOST_BYTES = 190_000;
/** Pixels. */
export const LONGEST_SIDE = 1_600;
const LONGEST_TEXT = 4 * Math.ceil(MOST_BYTES / 3);

/** The SHA-256 by which an event names its photo; undefined where it names none. */
export function photoNamed({ kind, body }: Pick<Event, "kind" | "body">): string | undefined {
  if (kind !== PHOTOGRAPHED) return undefined;
  const { sha256: name } = fieldsOf(parsed(body));
  return typeof name === "string" && /^[0-9a-f]{64}$/.test(name) ? name : undefined;
}

/** The photo in a stranger's text: a JPEG of our size whose bytes have that name. */
export async function soundPhoto(text: string, name: string): Promise<Photo | undefined> {
  const bytes = text.length <= LONGEST_TEXT ? fromText(text) : undefined;
  const size = bytes && jpegSize(bytes);
  if (!size || Math.max(size.width, size.height) > LONGEST_SIDE) return undefined;
  return (await sha256(bytes)) === name ? { name, bytes } : undefined;
}

/** Arguments of one call; more would not fit the stack of every browser. */
const PIECE = 0x2000;

/** Bytes in base64. */
export function asText(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += PIECE)
    text += String.fromCharCode(...bytes.subarray(at, at + PIECE));
  return btoa(text);
}

function fromText(text: string): Bytes | undefined {
  try {
    return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
  } catch {
    return undefined;
  }
}

/** Each job has its photos for itself, so that they go with it. */
export async function putPhoto(tx: Transaction, job: string, photo: Photo): Promise<void> {
  await tx.objectStore("photos").put(photo.bytes, [job, photo.name]);
  steps.at("photo written");
}

/** Keys of all photos of a job: after any text comes a list. */
export const photosOf = (job: string): IDBKeyRange => IDBKeyRange.bound([job], [job, []]);

/** The bytes of a photo; undefined where they are not on this phone. */
export async function photoIn(db: Database, job: string, name: string): Promise<Bytes | undefined> {
  return (await db.get("photos", [job, name])) ?? keptByLine(db, job, name);
}

/** A release that knew no photos took the line of a file in whole, and the photo in it. */
async function keptByLine(db: Database, job: string, name: string): Promise<Bytes | undefined> {
  for (const event of await db.getAllFromIndex("events", "kind", [job, PHOTOGRAPHED])) {
    const { jpeg } = fieldsOf(parsed(event.line ?? ""));
    if (typeof jpeg !== "string" || photoNamed(event) !== name) continue;
    const photo = await soundPhoto(jpeg, name);
    if (photo) return photo.bytes;
  }
  return undefined;
}
