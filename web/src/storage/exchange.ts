import type { Database, Phone, Transaction } from "./database";
import { inOneTransaction, newPhone } from "./database";
import { isBehind, phoneIn, type Saved } from "./append";
import type { StoredEvent } from "./event";
import { readFile, type Refusal } from "./file";

/** What came of an import. `refused` says of each entry left out why, in a sentence. */
export interface Imported extends Saved {
  readonly known: number;
  readonly refused: readonly string[];
}

/** Union of the file and the store by (device, n): what is stored never changes, twice is once. */
export async function importInto(db: Database, text: string): Promise<Imported> {
  const { events, refusals } = await readFile(text);
  return inOneTransaction(db, async (tx) => {
    const { added, known, conflicts } = await unite(tx, events);
    const phone = await goOnAsNewPhoneIfBehind(tx, events);
    const count = await tx.objectStore("events").count();
    return { events: added, phone, count, known, refused: [...refusals, ...conflicts].map(sentenceOf) };
  });
}

interface Union {
  readonly added: StoredEvent[];
  readonly known: number;
  readonly conflicts: Refusal[];
}

async function unite(tx: Transaction, incoming: ReadonlyMap<number, StoredEvent>): Promise<Union> {
  const added: StoredEvent[] = [];
  const conflicts: Refusal[] = [];
  const stored = tx.objectStore("events");
  for (const [line, event] of incoming) {
    const here = await stored.index("id").get([event.device, event.n]);
    if (!here) {
      await stored.add(event);
      added.push(event);
    } else if (!isSameEvent(here, event)) conflicts.push({ line, reason: "bears the number of another entry stored here" });
  }
  return { added, known: incoming.size - added.length - conflicts.length, conflicts };
}

function isSameEvent(a: StoredEvent, b: StoredEvent): boolean {
  return a.sha256 === b.sha256 && a.job === b.job && a.kind === b.kind && a.format === b.format;
}

async function goOnAsNewPhoneIfBehind(tx: Transaction, events: ReadonlyMap<number, StoredEvent>): Promise<Phone> {
  const phone = await phoneIn(tx);
  const names = Array.from(events.values(), ({ device, n }) => ({ origin: { device, n } }));
  if (!isBehind(phone, names)) return phone;
  const fresh = newPhone();
  await tx.objectStore("phone").put(fresh, "self");
  return fresh;
}

const sentenceOf = ({ line, reason }: Refusal): string =>
  `Line ${line} of the file ${reason}; it was left out and what is stored here is unchanged.`;
