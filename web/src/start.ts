// Loaded before the page itself, so that Python starts while the page is still being drawn.
import { effect } from "@preact/signals";
import { isFromStore, offlineState, startOffline, updateWaiting } from "./offline";
import { makeImageWhenIdle, python } from "./worker/python";

python.start();

// For style sheets and tests.
effect(() => {
  document.documentElement.dataset.python = python.state.value.state;
  document.documentElement.dataset.offline = offlineState.value.state;
  document.documentElement.dataset.update = updateWaiting() ? "waiting" : "none";
});

// Storing the site must not take the network from the first start.
if (isFromStore()) startOffline();
else afterPython(startOffline);

function afterPython(act: () => void) {
  const unsubscribe = python.state.subscribe(({ state }) => {
    if (state === "loading") return;
    act();
    queueMicrotask(() => unsubscribe());
  });
}

// Only for a site that is kept: otherwise the next start fetches everything again anyway.
const unsubscribe = offlineState.subscribe(({ state }) => {
  if (state !== "ready offline") return;
  makeImageWhenIdle();
  queueMicrotask(() => unsubscribe());
});
