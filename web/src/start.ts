// Loaded before the page itself, so that Python starts while the page is still being drawn.
import { effect } from "@preact/signals";
import { startOffline } from "./offline";
import { python } from "./worker/python";

python.start();

// Storing the site must not take the network from the first start.
const stop = effect(() => {
  if (python.state.value.state === "loading") return;
  startOffline();
  queueMicrotask(() => stop());
});
