/** An event as the page and the core know it: named by (device, n), body as the text it arrived in. */
export interface Event {
  readonly device: string;
  readonly n: number;
  readonly job: string;
  readonly kind: string;
  readonly format: number;
  /** Time for display only, ISO 8601; nothing is ever ordered by it. */
  readonly at: string;
  readonly body: string;
}

/** The name an event had on the phone that made it. */
export interface Origin {
  readonly device: string;
  readonly n: number;
}

export type Bytes = Uint8Array<ArrayBuffer>;

/** A photo and the SHA-256 of its bytes, by which its event names it. */
export interface Photo {
  readonly name: string;
  readonly bytes: Bytes;
}

/** An event before it has its number. */
export interface Draft extends Omit<Event, "device" | "n"> {
  readonly sha256: string;
  readonly origin?: Origin;
  /** Stored with it, all or nothing. */
  readonly photo?: Photo;
}

/** An event as it lies in the database. */
export interface StoredEvent extends Event {
  readonly sha256: string;
  readonly origin?: Origin;
  /** The line of the file it came in, where that holds fields of a later release: exported again as it came. */
  readonly line?: string;
}

/** What the page hands over for one event. */
export interface NewEvent {
  readonly job: string;
  readonly kind: string;
  readonly body: object;
  /** The photo that the body names. */
  readonly photo?: Bytes;
}

export const EVENT_FORMAT = 1;

/** The core reads no longer body; an event it refuses would close the whole job to it. */
export const LONGEST_BODY = 65_536;

/**
 * The event under the name its job knows it by.
 *
 * An adopted event keeps its body's bytes, and a body may name other events ("event withdrawn" does,
 * a kind of a later release may too). Translating bodies would mean to understand them all and to
 * write them anew; so the copy has a number of this phone in the database, and its first name in its job.
 */
export function asNamed(stored: StoredEvent): Event {
  const { device, n } = stored.origin ?? stored;
  const { job, kind, format, at, body } = stored;
  return { device, n, job, kind, format, at, body };
}

/**
 * Events in the order of arrival, but those of one device by its counter: a file with the first half of
 * a job may come in after the second.
 */
export function inOrder(arrived: readonly StoredEvent[]): StoredEvent[] {
  const byDevice = new Map<string, StoredEvent[]>();
  for (const event of arrived) {
    const own = byDevice.get(event.device);
    if (own) own.push(event);
    else byDevice.set(event.device, [event]);
  }
  for (const own of byDevice.values()) own.sort((a, b) => b.n - a.n);
  return arrived.map((event) => byDevice.get(event.device)?.pop() ?? event);
}

/** 128 random bits as text: a name for this installation, or for a new job. */
export function newId(): string {
  return hex(crypto.getRandomValues(new Uint8Array(16)));
}

export async function sha256(content: string | Bytes): Promise<string> {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
}

function hex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
