import { isBehind, phoneIn, type Saved } from "./append";
import type { Database, Phone, Transaction } from "./database";
import { inOneTransaction, newPhone } from "./database";
import { bringBack, isErased } from "./erase";
import type { StoredEvent } from "./event";
import type { FileRead } from "./file";
import { putPhoto } from "./photos";

/** What came of an import. `refused` says of each entry left out why, in a sentence. */
export interface Imported extends Saved {
  readonly known: number;
  /** How many photos came with it that were not here. */
  readonly photos: number;
  readonly refused: readonly string[];
}

/** Union of the file and the store by (device, n): what is stored never changes, twice is once. */
export function importInto(db: Database, file: FileRead): Promise<Imported> {
  return inOneTransaction(db, async (tx) => {
    const { added, known, conflicts } = await unite(tx, file.events);
    const photos = await addPhotos(tx, file);
    const phone = await goOnAsNewPhoneIfBehind(tx, Array.from(file.events.values()));
    const count = await tx.objectStore("events").count();
    return { events: added, phone, count, known, photos, refused: [...file.refused, ...conflicts] };
  });
}

interface Union {
  readonly added: StoredEvent[];
  readonly known: number;
  readonly conflicts: string[];
}

async function unite(tx: Transaction, incoming: FileRead["events"]): Promise<Union> {
  const added: StoredEvent[] = [];
  const conflicts: string[] = [];
  for (const [line, event] of incoming) {
    const here = await tx.objectStore("events").index("id").get([event.device, event.n]);
    if (here && isErased(here) && !isErased(event)) {
      await bringBack(tx, event);
      added.push(event);
      continue;
    }
    if (here && !isErased(event) && !isSameEvent(here, event)) conflicts.push(conflict(line));
    if (here) continue;
    await tx.objectStore("events").add(event);
    added.push(event);
  }
  return { added, known: incoming.size - added.length - conflicts.length, conflicts };
}

/** Photos of entries that are here now, be it since long; those of entries left out are left out too. */
async function addPhotos(tx: Transaction, file: FileRead): Promise<number> {
  let added = 0;
  for (const [line, photo] of file.photos) {
    const event = file.events.get(line);
    const here = event && (await tx.objectStore("events").index("id").get([event.device, event.n]));
    if (!here || !isSameEvent(here, event)) continue;
    if (await tx.objectStore("photos").getKey([event.job, photo.name])) continue;
    await putPhoto(tx, event.job, photo);
    added += 1;
  }
  return added;
}

function isSameEvent(a: StoredEvent, b: StoredEvent): boolean {
  return a.sha256 === b.sha256 && a.job === b.job && a.kind === b.kind && a.format === b.format;
}

const conflict = (line: number): string =>
  `Line ${line} bears the number of another entry stored here. It was left out; what is stored is unchanged.`;

async function goOnAsNewPhoneIfBehind(tx: Transaction, events: StoredEvent[]): Promise<Phone> {
  const phone = await phoneIn(tx);
  if (!isBehind(phone, events)) return phone;
  const fresh = newPhone();
  await tx.objectStore("phone").put(fresh, "self");
  return fresh;
}
