// A page with nothing but the bridge, which tests reach as `footwell`.

import { scriptUrl } from "../../../web/src/trusted";
import type { CallError } from "../../../web/src/worker/errors";
import { python } from "../../../web/src/worker/python";

/** The answer as text, or the code and sentence of the error. */
const call = (name: string, text: string, supersede = false) =>
  python
    .call(name, text, { supersede })
    .catch((error: CallError) => ({ code: error.code, sentence: error.sentence }));

declare const IMAGE_WORKER_FILE: string;

/** Resolves when the worker that makes the image is over, with an image or without. */
const makeImage = () =>
  new Promise<void>((resolve) => {
    const worker = new Worker(scriptUrl(new URL(IMAGE_WORKER_FILE, document.baseURI)), {
      type: "module",
    });
    worker.onmessage = () => resolve(worker.terminate());
  });

const messages: string[] = [];
python.state.subscribe((now) => now.state === "loading" && messages.push(now.message));

Object.assign(window, {
  footwell: {
    call,
    makeImage,
    messages,
    start: () => python.start(),
    state: () => python.state.value,
    way: () => python.way,
  },
});
python.start();
