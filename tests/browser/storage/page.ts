/** A page with the store and nothing else, for the tests of the store. */
import { newId, Store, sha256 } from "../../../web/src/storage";
import { SAVE_STEPS, type SaveStep, steps } from "../../../web/src/storage/steps";

const store = new Store();

type Action = Parameters<Store["appendMany"]>[0][number];

/** A photo's entry: as much of a JPEG as the store looks at, with a word in it and so many bytes more. */
async function photographed(job: string, word: string, more = 0): Promise<Action> {
  const frame = [0xff, 0xc0, 0, 11, 8, 0, 48, 0, 64, 1, 1, 17, 0, 0xff, 0xd9];
  const comment = Array.from(word, (sign) => sign.charCodeAt(0));
  const head = [0xff, 0xd8, 0xff, 0xfe, 0, comment.length + 2, ...comment, ...frame];
  const photo = new Uint8Array(head.length + more);
  // Random, because the browser compresses what it stores; no more than so many bytes at once.
  for (let at = 0; at < photo.length; at += 65_536)
    crypto.getRandomValues(photo.subarray(at, at + 65_536));
  photo.set(head);
  const body = { connector: "X2", half: "a", sha256: await sha256(photo), width: 64, height: 48 };
  return { job, kind: "connector photographed", body: { ...body, bytes: photo.length }, photo };
}

/** An action as a test names it: a whole one, or the word in a photo. */
const actionOf = (named: Action | { job: string; photo: string }) =>
  typeof named.photo === "string" ? photographed(named.job, named.photo) : (named as Action);

/** Halt the page where a save reaches `step`, or "said" once the person would see it saved. */
function saveAndHalt(
  step: SaveStep | "said",
  events: readonly (Action | { job: string; photo: string })[],
): void {
  steps.at = (reached) => {
    if (reached === step) halt();
  };
  setTimeout(async () => {
    await store.appendMany(await Promise.all(events.map(actionOf)));
    if (step === "said") halt();
  });
}

function halt(): void {
  // biome-ignore lint/suspicious/noDebugger: the test is attached here and crashes the page.
  debugger;
}

/** Let the save fail at `step` as a browser does that took the connection away, `times` times. */
function loseConnection(step: SaveStep, times: number): void {
  let left = times;
  steps.at = (reached) => {
    if (reached !== step || left === 0) return;
    left -= 1;
    throw new DOMException("The database connection is closing.", "InvalidStateError");
  };
}

Object.assign(globalThis, {
  store,
  steps,
  newId,
  SAVE_STEPS,
  saveAndHalt,
  loseConnection,
  photographed,
});
