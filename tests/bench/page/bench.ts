// The page of the benchmarks: starts workers and times them.
import { scriptUrl } from "../../../web/src/trusted";
import type { BenchQuestion } from "./bench_worker";

declare const WORKER_FILE: string;
declare const IMAGE_WORKER_FILE: string;

const address = (file: string) => scriptUrl(new URL(file, document.baseURI));
const open = (file: string, name = "") => new Worker(address(file), { type: "module", name });

const next = (worker: Worker) =>
  new Promise<MessageEvent["data"]>((resolve, reject) => {
    worker.onmessage = (event) => resolve(event.data);
    worker.onerror = (event) => reject(new Error(event.message));
  });

let kept: Worker | undefined;

/** Start a new worker to be asked, in a way of its own. */
function begin(way: string) {
  kept?.terminate();
  kept = open("/harness/bench_worker.js", way);
}

async function asked(worker: Worker, question: BenchQuestion) {
  const answer = next(worker);
  worker.postMessage(question);
  const { ok, error } = await answer;
  if (error) throw new Error(error);
  return ok;
}

/** Ask the one worker that benchmarks share. */
function ask(question: BenchQuestion) {
  kept ??= open("/harness/bench_worker.js", "bundle");
  return asked(kept, question);
}

/** What a new worker, started in this way, answers to a call about each of these texts. */
async function answers(way: string, name: string, texts: string[]) {
  const worker = open("/harness/bench_worker.js", way);
  const found: unknown[] = [];
  for (const text of texts) found.push(await asked(worker, { ask: "call", name, text }));
  worker.terminate();
  return found;
}

/** Milliseconds from starting a worker to its first answer, and the answer. */
async function naive(name: string, text: string) {
  const start = performance.now();
  const worker = open("/harness/naive_worker.js");
  const answer = next(worker);
  worker.postMessage({ name, text });
  const { ok, heapBytes } = await answer;
  const ms = performance.now() - start;
  worker.terminate();
  return { ms, answer: ok, heapBytes };
}

/** The same for the worker of the site, which says whether it found an image. */
async function ours(name: string, text: string, way = "bundle") {
  const start = performance.now();
  const worker = open(WORKER_FILE, `${way} bench`);
  let found = way === "image";
  const answered = new Promise<string>((resolve, reject) => {
    worker.onmessage = ({ data }) => {
      if (data.tell === "no image") found = false;
      if (data.tell === "ready") worker.postMessage({ ask: "call", id: 1, name, text });
      if (data.tell === "answer") resolve(data.text);
      if (data.tell === "failed") reject(new Error(data.reason));
    };
  });
  const answer = await answered;
  const ms = performance.now() - start;
  const heapBytes = await memory(worker);
  worker.terminate();
  return { ms, answer, heapBytes, found };
}

const image = (name: string, text: string) => ours(name, text, "image");

/** Have the image made, and say how large it is. */
async function makeImage(): Promise<number> {
  await next(open(IMAGE_WORKER_FILE));
  const cache = await caches.open("footwell-image");
  const [kept] = await cache.keys();
  return kept ? ((await (await cache.match(kept))?.blob())?.size ?? 0) : 0;
}

async function memory(worker: Worker): Promise<number> {
  const answer = next(worker);
  worker.postMessage({ ask: "memory", id: 2 });
  return Number((await answer).text);
}

Object.assign(window, { bench: { ask, answers, begin, naive, ours, image, makeImage } });
