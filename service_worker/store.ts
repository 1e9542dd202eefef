// Storing the listed files: nothing is kept whose hash is not the listed one.
import { cacheOf, files, type ListedFile } from "./release";
import { worker } from "./scope";

export type Progress = (stored: number) => void;

const AT_ONCE = 4;

const urlOf = (file: ListedFile) => new URL(file.path, worker.registration.scope).href;

async function isListed(file: ListedFile, response: Response): Promise<boolean> {
  if (!response.ok) return false;
  const bytes = await response.clone().arrayBuffer();
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  const hex = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0"));
  return hex.join("") === file.sha256;
}

const isStored = async (file: ListedFile) =>
  Boolean(await (await caches.open(cacheOf(file))).match(urlOf(file)));

/** Where a file may come from: an earlier release, the browser's own cache, the host. */
async function* sources(url: string): AsyncGenerator<Response | undefined> {
  yield await caches.match(url);
  yield await fetch(url).catch(() => undefined);
  yield await fetch(url, { cache: "reload" });
}

async function fetchListed(file: ListedFile): Promise<Response> {
  for await (const response of sources(urlOf(file))) {
    if (response && (await isListed(file, response))) return response;
  }
  throw new Error(`${file.path} is not the file of this release`);
}

async function store(file: ListedFile) {
  if (await isStored(file)) return;
  const response = await fetchListed(file);
  // Put as it came: the browser keeps compiled code only beside untouched responses.
  await (await caches.open(cacheOf(file))).put(urlOf(file), response);
}

/** Store every file of the release that is not there yet. */
export async function storeAll(progress: Progress) {
  const left = [...files];
  let stored = 0;
  const work = async () => {
    for (let file = left.shift(); file; file = left.shift()) {
      await store(file);
      progress(++stored);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
}

/** How many files of the release are there. */
export async function countStored(): Promise<number> {
  const there = await Promise.all(files.map(isStored));
  return there.filter(Boolean).length;
}
