/** Puts the page together: store, core and offline worker, then the screens. */

import "./style/index.css";
import { computed } from "@preact/signals";
import { render } from "preact";
import { App } from "./app/App";
import { Boundary } from "./app/Boundary";
import { type Core, connect, type Offline } from "./app/ports";
import { dressDocument } from "./app/prefs";
import { resumeRoute } from "./app/route";
import { takeLinkFromAddress } from "./features/openlink/state";
import { applyUpdate, isFromStore, offlineState, updateWaiting } from "./offline";
import { Store } from "./storage";
import { call, python } from "./worker/python";

const core: Core = { state: python.state, call, start: () => python.start() };

const offline: Offline = {
  ready: computed(() => {
    const { state } = offlineState.value;
    return state === "looking" ? undefined : state === "ready offline";
  }),
  gone: computed(() => {
    const state = offlineState.value;
    return isFromStore() && state.state === "storing" ? state.of - state.stored : 0;
  }),
  updateWaiting: computed(updateWaiting),
  update: applyUpdate,
};

const store = new Store();
connect({ core, store, offline });
void store.open();
dressDocument();
resumeRoute();
takeLinkFromAddress();
addEventListener("online", () => core.start());
addEventListener("hashchange", takeLinkFromAddress);

const root = document.getElementById("page") as HTMLElement;
root.replaceChildren();
render(
  <Boundary>
    <App />
  </Boundary>,
  root,
);
