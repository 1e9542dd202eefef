import type { Transaction } from "./database";
import { EVENT_FORMAT, type StoredEvent, sha256 } from "./event";
import { photosOf } from "./photos";

/** Job and kind of an entry that was erased: its number stays taken, nothing else of it is left. */
const ERASED = "erased";

export const isErased = ({ kind, job }: StoredEvent): boolean => kind === ERASED && job === ERASED;

export async function emptied(): Promise<Pick<StoredEvent, "body" | "sha256">> {
  return { body: "{}", sha256: await sha256("{}") };
}

/**
 * Take everything out of a job's events but their numbers, and its photos whole. Without the numbers the
 * counter would have holes, and the missing entries would be told as lost.
 */
export async function eraseIn(
  tx: Transaction,
  job: string,
  nothing: Pick<StoredEvent, "body" | "sha256">,
): Promise<void> {
  await tx.objectStore("photos").delete(photosOf(job));
  const events = tx.objectStore("events");
  for (const key of await events.index("job").getAllKeys(job)) {
    const event = await events.get(key);
    if (!event) continue;
    const { device, n } = event;
    await events.put(
      { device, n, job: ERASED, kind: ERASED, format: EVENT_FORMAT, at: "", ...nothing },
      key,
    );
  }
}

/** An erased entry that comes in again from a file: the person opened that file to have it back. */
export async function bringBack(tx: Transaction, event: StoredEvent): Promise<void> {
  const key = await tx.objectStore("events").index("id").getKey([event.device, event.n]);
  await tx.objectStore("events").put(event, key);
}
