/**
 * The image of Python's memory after a start, kept on this phone so that the next start need not repeat
 * it. It holds nothing of any job.
 */

/** The one switch: without it no image is made, looked for or restored. */
export const USE_IMAGE = true;

const STORE = "footwell-image";
/** Restores in a row that began and did not end well. */
const FAILURES_TOO_MANY = 2;
/** Jobs come first: the image, about 40 MB, is made only where the browser still grants much more. */
const ROOM_NEEDED = 400_000_000;

/** What was kept is not what was made. */
export class DamagedImage extends Error {}

const hex = (bytes: ArrayBuffer) =>
  [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");

const sha256 = async (bytes: BufferSource) => hex(await crypto.subtle.digest("SHA-256", bytes));

const canKeep = () => USE_IMAGE && "caches" in globalThis;

const open = () => caches.open(STORE);

async function hasRoom(): Promise<boolean> {
  const { quota = 0, usage = 0 } = await navigator.storage.estimate();
  return quota - usage >= ROOM_NEEDED;
}

/** The image of one release of Python in one browser engine, and how often restoring it has failed. */
export class KeptImage {
  readonly #image: string;
  readonly #failures: string;

  /** `folder` is an address below which nothing is ever fetched. */
  constructor(key: readonly string[], folder: URL) {
    const name = key.map(encodeURIComponent).join("&");
    this.#image = new URL(`memory?${name}`, folder).href;
    this.#failures = new URL(`failures?${name}`, folder).href;
  }

  /** Whether one should be made: there is none, restoring has not failed too often, there is room. */
  async isWanted(): Promise<boolean> {
    if (!canKeep() || (await this.#failed()) >= FAILURES_TOO_MANY) return false;
    return !(await (await open()).match(this.#image)) && hasRoom();
  }

  /**
   * The image as it was kept, if there is one to restore. From here on the restore counts as failed until
   * `worked`: one that kills the worker, or never ends, counts as well.
   */
  async begin(): Promise<Response | undefined> {
    if (!canKeep() || !(await caches.has(STORE))) return undefined;
    const kept = await (await open()).match(this.#image);
    if (!kept) return undefined;
    const failed = await this.#failed();
    if (failed < FAILURES_TOO_MANY) await this.#setFailed(failed + 1);
    else await this.drop();
    return failed < FAILURES_TOO_MANY ? kept : undefined;
  }

  /** Its bytes; a damaged one is removed and rejects with DamagedImage. */
  async bytesOf(kept: Response): Promise<Uint8Array> {
    const bytes = await kept.arrayBuffer();
    if ((await sha256(bytes)) === kept.headers.get("sha256")) return new Uint8Array(bytes);
    await this.drop();
    throw new DamagedImage();
  }

  async worked() {
    await (await open()).delete(this.#failures);
  }

  /** Keep an image in the place of all others. */
  async keep(bytes: Uint8Array<ArrayBuffer>) {
    const cache = await open();
    const old = (await cache.keys()).filter(({ url }) => url !== this.#failures);
    await Promise.all(old.map((request) => cache.delete(request)));
    await cache.put(this.#image, new Response(bytes, { headers: { sha256: await sha256(bytes) } }));
  }

  async drop() {
    await (await open()).delete(this.#image);
  }

  async #failed(): Promise<number> {
    const kept = await (await open()).match(this.#failures);
    return kept ? Number(await kept.text()) : 0;
  }

  async #setFailed(count: number) {
    await (await open()).put(this.#failures, new Response(String(count)));
  }
}

/** Remove every image from this phone. */
export async function eraseImages() {
  if ("caches" in globalThis) await caches.delete(STORE);
}
