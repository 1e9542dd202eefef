// The page's end of the way to Python: numbered calls, one at a time, and a new worker when one dies.
import { type ReadonlySignal, signal } from "@preact/signals";
import { NoPython, Superseded, WorkerDied } from "./errors";
import type { Link, OpenLink } from "./link";
import type { PythonState, Telling, Way } from "./protocol";
import { Queue, type Waiting } from "./waiting";

export interface CallOptions {
  /** Reject older calls of the same name that wait for an answer. */
  supersede?: boolean;
}

/**
 * How long silence is taken for work. A phone may fetch Python over a very slow network; but once the
 * worker's script is here, nobody would notice its death before its first word in another way. That script
 * is small, and no browser tells surely that it came where its worker was taken in the midst of it. A call
 * that is worked on without end is given up at last.
 */
export const PATIENCE = {
  scriptMs: 60_000,
  firstWordMs: 8_000,
  restoreMs: 20_000,
  startMs: 300_000,
  callMs: 30_000,
  mostMs: 600_000,
};

/** What is tried when a way has failed. */
const NEXT_WAY: Partial<Record<Way, Way>> = { image: "bundle", bundle: "wheels" };

const STARTING: Record<Way, string> = {
  image: "Starting Python",
  bundle: "Starting Python",
  wheels: "Starting Python from its parts",
};

/** Browsers take workers away without a word; of itself one dies with a word, or falls silent. */
type Death = "taken away" | "of itself";

/** A call that was being answered when two workers died is not tried again; nor is a start. */
const DEATHS_TOO_MANY = 2;

export class Bridge {
  readonly #open: OpenLink;
  readonly #patience: typeof PATIENCE;
  readonly #state = signal<PythonState>({ state: "loading", message: "Starting Python" });
  readonly #queue = new Queue();
  #link: Link | undefined;
  #way: Way = "image";
  #inHand: Waiting | undefined;
  #failedStarts = 0;
  #lastId = 0;
  #isAlive = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #end: ReturnType<typeof setTimeout> | undefined;

  constructor(open: OpenLink, patience = PATIENCE) {
    this.#open = open;
    this.#patience = patience;
  }

  get state(): ReadonlySignal<PythonState> {
    return this.#state;
  }

  /** The way in which Python was started last. */
  get way(): Way {
    return this.#way;
  }

  /** Whether Python is ready and has nothing to do. */
  get isIdle(): boolean {
    return this.#state.value.state === "ready" && this.#inHand === undefined;
  }

  /** Start Python, or start it again after it failed. */
  start() {
    if (this.#link) return;
    this.#failedStarts = 0;
    this.#way = "image";
    this.#startWorker(STARTING.image);
  }

  /** Send one call; the answer is text. Rejects with a CallError if no worker can answer. */
  call(name: string, text: string, { supersede = false }: CallOptions = {}): Promise<string> {
    const state = this.#state.value;
    if (state.state === "failed") return Promise.reject(new NoPython(state.reason));
    if (supersede) this.#supersede(name);
    return new Promise((resolve, reject) => {
      this.#queue.add({ id: ++this.#lastId, name, text, deaths: 0, resolve, reject });
      this.#next();
    });
  }

  #supersede(name: string) {
    this.#queue.rejectNamed(name, new Superseded(name));
    if (this.#inHand?.name === name) this.#dropInHand(this.#inHand);
  }

  /** It is being computed already: its answer will find nobody waiting, and it is not repeated. */
  #dropInHand(entry: Waiting) {
    entry.reject(new Superseded(entry.name));
    entry.deaths = DEATHS_TOO_MANY;
  }

  #startWorker(message: string) {
    this.#state.value = { state: "loading", message };
    const isCurrent = () => this.#link === link;
    const link = this.#open(this.#way, {
      told: (telling) => isCurrent() && this.#told(telling),
      gone: () => isCurrent() && this.#died("taken away"),
    });
    this.#link = link;
    this.#isAlive = false;
    this.#expectSoundWithin(this.#patience.scriptMs);
  }

  #told(telling: Telling) {
    if (telling.tell === "fetched" && !this.#isAlive)
      this.#expectSoundWithin(this.#patience.firstWordMs);
    if (telling.tell === "alive") this.#alive();
    if (telling.tell === "no image") this.#goBy("bundle");
    if (telling.tell === "loading")
      this.#state.value = { state: "loading", message: telling.message };
    if (telling.tell === "ready") this.#ready();
    if (telling.tell === "failed") this.#startFailed(telling.reason);
    if (telling.tell === "dying") this.#died("of itself");
    if (telling.tell === "working" && this.#inHand) this.#expectSoundWithin(this.#patience.callMs);
    if (telling.tell === "answer") this.#answered(telling.id, telling.text);
  }

  #alive() {
    this.#isAlive = true;
    this.#expectStarted();
  }

  #goBy(way: Way) {
    this.#way = way;
    this.#expectStarted();
  }

  #expectStarted() {
    const { restoreMs, startMs } = this.#patience;
    this.#expectSoundWithin(this.#way === "image" ? restoreMs : startMs);
  }

  #ready() {
    clearTimeout(this.#timer);
    this.#failedStarts = 0;
    this.#state.value = { state: "ready" };
    this.#next();
  }

  #next() {
    if (this.#inHand || !this.#link || this.#state.value.state !== "ready") return;
    const entry = this.#queue.next();
    if (!entry) return;
    this.#inHand = entry;
    this.#expectSoundWithin(this.#patience.callMs);
    this.#end = setTimeout(() => this.#died("of itself"), this.#patience.mostMs);
    this.#link.ask({ ask: "call", id: entry.id, name: entry.name, text: entry.text });
  }

  #answered(id: number, text: string) {
    if (this.#inHand?.id !== id) return;
    clearTimeout(this.#timer);
    clearTimeout(this.#end);
    this.#inHand.resolve(text);
    this.#inHand = undefined;
    this.#next();
  }

  #expectSoundWithin(ms: number) {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#died("of itself"), ms);
  }

  /** The worker is gone, or so silent that it must be taken for gone. */
  #died(how: Death) {
    this.#closeLink();
    if (this.#state.value.state === "loading") return this.#startDied();
    this.#way = this.#wayAfter(how);
    this.#putBackInHand();
    this.#startWorker("Python stopped; starting it again");
  }

  /** The quick way, unless the worker may have died of just that. */
  #wayAfter(how: Death): Way {
    if (this.#way === "wheels") return "wheels";
    return this.#way === "image" && how === "of itself" ? "bundle" : "image";
  }

  #putBackInHand() {
    const entry = this.#inHand;
    this.#inHand = undefined;
    if (!entry) return;
    entry.deaths += 1;
    if (entry.deaths < DEATHS_TOO_MANY) this.#queue.putBack(entry);
    else entry.reject(new WorkerDied(entry.name));
  }

  #startDied() {
    if (this.#way === "image") return this.#startFailed("the worker died");
    this.#failedStarts += 1;
    if (this.#failedStarts < DEATHS_TOO_MANY)
      this.#startWorker("Python stopped; starting it again");
    else this.#startFailed("Python stopped while it was starting.");
  }

  #startFailed(reason: string) {
    this.#closeLink();
    console.warn(`Python could not be started from the ${this.#way}:`, reason);
    const next = NEXT_WAY[this.#way];
    if (next) {
      this.#way = next;
      this.#failedStarts = 0;
      return this.#startWorker(STARTING[next]);
    }
    this.#state.value = { state: "failed", reason };
    this.#queue.rejectAll(new NoPython(reason));
  }

  #closeLink() {
    clearTimeout(this.#timer);
    clearTimeout(this.#end);
    this.#link?.close();
    this.#link = undefined;
  }
}
