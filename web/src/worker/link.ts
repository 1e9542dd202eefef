// One worker as the bridge sees it: questions in, tellings out, and one word when it is gone.
import type { Question, Telling, Way } from "./protocol";

export interface Link {
  ask(question: Question): void;
  close(): void;
}

export interface Listener {
  told(telling: Telling): void;
  gone(): void;
}

export type OpenLink = (way: Way, listener: Listener) => Link;

let opened = 0;

/** Makes the function that opens links to workers running the given script. */
export const linkTo =
  (url: string): OpenLink =>
  (way, listener) => {
    const lock = `python-${crypto.randomUUID()}-${opened++}`;
    const worker = new Worker(url, { type: "module", name: `${way} ${lock}` });
    const watch = new AbortController();
    worker.onmessage = (event: MessageEvent<Telling>) => {
      if (event.data.tell === "alive") tellDeath(lock, watch.signal, listener);
      listener.told(event.data);
    };
    // Its first word cannot be expected before its script is here, which takes long over a poor network.
    const fetched = () => listener.told({ tell: "fetched" });
    fetch(url)
      .then((answer) => answer.arrayBuffer())
      .then(fetched, fetched);
    worker.onerror = (event) => listener.told({ tell: "dying", reason: event.message });
    return {
      ask: (question) => worker.postMessage(question),
      close: () => {
        watch.abort();
        worker.terminate();
      },
    };
  };

/** The worker holds the lock as long as it lives, even while it computes; we get it when it is dead. */
function tellDeath(lock: string, signal: AbortSignal, listener: Listener) {
  navigator.locks.request(lock, { signal }, () => listener.gone()).catch(() => {});
}
