import {
  type Connection,
  type Contents,
  type Database,
  inOneTransaction,
  newPhone,
  type Phone,
  type Transaction,
} from "./database";
import {
  type Bytes,
  type Draft,
  EVENT_FORMAT,
  LONGEST_BODY,
  type NewEvent,
  type Origin,
  type Photo,
  type StoredEvent,
  sha256,
} from "./event";
import { photoNamed, putPhoto } from "./photos";
import { GONE, StorageProblem } from "./problems";
import { steps } from "./steps";

/** What a save leaves behind: the events with their numbers, and how much the store holds now. */
export interface Saved extends Contents {
  readonly events: StoredEvent[];
}

/** Hashing waits for the browser, and a transaction would not wait for that: so it is done before. */
export async function draftOf(event: NewEvent, at: string): Promise<Draft> {
  const body = JSON.stringify(event.body);
  if (body.length > LONGEST_BODY) throw tooLong(event.kind, body.length);
  const { job, kind } = event;
  const photo = event.photo && { photo: await named(event.photo, { kind, body }) };
  return { job, kind, format: EVENT_FORMAT, at, body, sha256: await sha256(body), ...photo };
}

async function named(bytes: Bytes, event: { kind: string; body: string }): Promise<Photo> {
  const name = await sha256(bytes);
  if (name !== photoNamed(event)) throw new Error("The event does not name this photo.");
  return { name, bytes };
}

function tooLong(kind: string, length: number): StorageProblem {
  return new StorageProblem(
    "unfit",
    `Not saved: "${kind}" holds ${length} characters and may hold ${LONGEST_BODY}. Shorten it and save again.`,
  );
}

/**
 * Store one user action, whole or not at all, under the next numbers of this phone. The job `into` must be
 * here: what another tab has erased does not begin anew with its next entry.
 */
export function save(
  connection: Connection,
  drafts: readonly Draft[],
  into?: string,
): Promise<Saved> {
  return connection.use((db, again) => saveIn(db, drafts, again, into));
}

async function saveIn(
  db: Database,
  drafts: readonly Draft[],
  again: boolean,
  into?: string,
): Promise<Saved> {
  const saved = await inOneTransaction(db, async (tx) => {
    steps.at("transaction opened");
    const before = await phoneIn(tx);
    if (into !== undefined && !(await isHere(tx, into))) throw new StorageProblem("gone", GONE);
    const events = (again && (await alreadyStored(tx, drafts))) || (await add(tx, drafts, before));
    const phone = await phoneIn(tx);
    return { events, phone, count: await tx.objectStore("events").count() };
  });
  steps.at("complete");
  return saved;
}

const isHere = async (tx: Transaction, job: string): Promise<boolean> =>
  (await tx.objectStore("events").index("job").getKey(job)) !== undefined;

/** The phone's record, read in the transaction that takes a number: two tabs never get the same one. */
export async function phoneIn(tx: Transaction): Promise<Phone> {
  return (await tx.objectStore("phone").get("self")) ?? newPhone();
}

async function add(
  tx: Transaction,
  drafts: readonly Draft[],
  phone: Phone,
): Promise<StoredEvent[]> {
  const { n, ...named } = isBehind(phone, namesBefore(drafts)) ? newPhone() : phone;
  steps.at("number taken");
  const events: StoredEvent[] = [];
  for (const { photo, ...draft } of drafts) {
    if (photo) await putPhoto(tx, draft.job, photo);
    const event = { device: named.device, n: n + 1 + events.length, ...draft };
    await tx.objectStore("events").add(event);
    steps.at("event written");
    events.push(event);
  }
  await tx.objectStore("phone").put({ ...named, n: n + events.length }, "self");
  steps.at("counter written");
  return events;
}

/**
 * An event of ours that we never made comes back to us: this phone was restored from an older copy
 * and would give that number a second time. It goes on as a new phone.
 */
export function isBehind(phone: Phone, incoming: readonly Origin[]): boolean {
  return incoming.some(({ device, n }) => device === phone.device && n > phone.n);
}

const namesBefore = (drafts: readonly Draft[]): Origin[] =>
  drafts.flatMap(({ origin }) => origin ?? []);

/**
 * After a lost connection: the action, if the first try was stored after all. Its time (to the
 * millisecond) and hashes tell it from the same reading taken twice.
 */
async function alreadyStored(
  tx: Transaction,
  drafts: readonly Draft[],
): Promise<StoredEvent[] | undefined> {
  const jobs = Array.from(new Set(drafts.map(({ job }) => job)));
  const index = tx.objectStore("events").index("job");
  const stored = await Promise.all(jobs.map((job) => index.getAll(job)));
  const found = stored.flat().filter((event) => drafts.some((draft) => isSame(event, draft)));
  return found.length === drafts.length ? found : undefined;
}

function isSame(event: StoredEvent, draft: Draft): boolean {
  return (
    event.at === draft.at &&
    event.kind === draft.kind &&
    event.sha256 === draft.sha256 &&
    event.origin?.n === draft.origin?.n
  );
}
