// A page with nothing but the bridge, which tests reach as `footwell`.
import type { CallError } from "../../../web/src/worker/errors";
import { python } from "../../../web/src/worker/python";

/** The answer as text, or the code and sentence of the error. */
const call = (name: string, text: string, supersede = false) =>
  python
    .call(name, text, { supersede })
    .catch((error: CallError) => ({ code: error.code, sentence: error.sentence }));

Object.assign(window, {
  footwell: { call, start: () => python.start(), state: () => python.state.value },
});
python.start();
