/** A page with the store and nothing else, for the tests of the store. */
import { newId, Store } from "../../../web/src/storage";
import { SAVE_STEPS, type SaveStep, steps } from "../../../web/src/storage/steps";

const store = new Store();

/** Halt the page where a save reaches `step`, or "said" once the person would see it saved. */
function saveAndHalt(step: SaveStep | "said", events: Parameters<Store["appendMany"]>[0]): void {
  steps.at = (reached) => {
    if (reached === step) halt();
  };
  setTimeout(async () => {
    await store.appendMany(events);
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

Object.assign(globalThis, { store, steps, newId, SAVE_STEPS, saveAndHalt, loseConnection });
