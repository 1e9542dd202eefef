// When the image for the next start is made: after a plain start, while nobody waits for Python.
import { USE_IMAGE } from "../storage/image";
import type { Bridge } from "./bridge";

const LOOK_MS = 1_000;
/** So many looks in a row must find Python idle. */
const QUIET_LOOKS = 5;

/** Start the worker at `url` once Python has been idle for a while; stop it when somebody needs Python. */
export function makingImage(python: Pick<Bridge, "isIdle" | "way">, url: string) {
  if (!USE_IMAGE) return;
  let quiet = 0;
  let maker: Worker | undefined;
  const stop = () => {
    maker?.terminate();
    maker = undefined;
    quiet = 0;
  };
  const looking = setInterval(() => {
    if (python.way !== "bundle") return;
    quiet += 1;
    if (!python.isIdle) stop();
    else if (!maker && quiet >= QUIET_LOOKS) maker = start();
  }, LOOK_MS);
  const over = () => {
    clearInterval(looking);
    stop();
  };
  const start = () => {
    const worker = new Worker(url, { type: "module", name: "image" });
    worker.onmessage = over;
    worker.onerror = over;
    return worker;
  };
}
