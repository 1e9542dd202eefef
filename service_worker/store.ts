// Storing the listed files: nothing is kept whose hash is not the listed one.
import { type Attempt, attempt } from "./attempt";
import { cacheOf, files, type ListedFile } from "./release";
import { worker } from "./scope";

export type Progress = (stored: number) => void;

const AT_ONCE = 4;

const urlOf = (file: ListedFile) => new URL(file.path, worker.registration.scope).href;

/** The bytes of a body; of one that is longer than listed no more than that is read. */
async function bytesOf({ body }: Response, length: number, moved: () => void) {
  if (!body) return undefined;
  const bytes = new Uint8Array(length);
  const reader = body.getReader();
  let at = 0;
  try {
    for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
      moved();
      if (at + piece.value.length > length) return undefined;
      bytes.set(piece.value, at);
      at += piece.value.length;
    }
  } finally {
    reader.releaseLock();
  }
  return bytes.subarray(0, at);
}

async function isListed(file: ListedFile, response: Response, moved: () => void) {
  if (!response.ok) return false;
  const bytes = await bytesOf(response, file.bytes, moved);
  if (!bytes) return false;
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  const hex = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0"));
  return hex.join("") === file.sha256;
}

const isStored = async (file: ListedFile) =>
  Boolean(await (await caches.open(cacheOf(file))).match(urlOf(file)));

/** Where a file may come from: an earlier release, the browser's own cache, the host. */
async function* sources(url: string, signal: AbortSignal): AsyncGenerator<Response | undefined> {
  yield await caches.match(url);
  yield await fetch(url, { signal }).catch(() => undefined);
  yield await fetch(url, { signal, cache: "reload" });
}

async function fetchListed(file: ListedFile, { signal, moved }: Attempt): Promise<Response> {
  for await (const response of sources(urlOf(file), signal)) {
    if (!response) continue;
    const copy = response.clone();
    if (await isListed(file, copy, moved).catch(() => false)) return response;
    letGo(copy);
    letGo(response);
  }
  throw new Error(`${file.path} is not the file of this release`);
}

/** A body that nobody reads on would keep one of the few connections to the host. */
function letGo({ body }: Response) {
  body?.cancel().catch(() => {});
}

async function store(file: ListedFile, one: Attempt) {
  if (await isStored(file)) return;
  const response = await fetchListed(file, one);
  // Put as it came: the browser keeps compiled code only beside untouched responses.
  await (await caches.open(cacheOf(file))).put(urlOf(file), response);
  one.moved();
}

type Act = (file: ListedFile) => Promise<unknown>;

async function withEach(act: Act, signal: AbortSignal) {
  const left = [...files];
  const work = async () => {
    for (let file = left.shift(); file; file = left.shift()) {
      signal.throwIfAborted();
      await act(file);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
}

/** Store every file of the release that is not there yet; all of them, or it is refused at the first. */
export function storeAll(progress: Progress): Promise<void> {
  let stored = 0;
  return attempt((one) =>
    withEach((file) => store(file, one).then(() => progress(++stored)), one.signal),
  );
}

/** Store what was lost, as much of it as can be had: the host may have gone on to another release. */
export const storeLost = (): Promise<void> =>
  attempt((one) => withEach((file) => store(file, one).catch(() => {}), one.signal));

/** How many files of the release are there. */
export async function countStored(): Promise<number> {
  const there = await Promise.all(files.map(isStored));
  return there.filter(Boolean).length;
}
