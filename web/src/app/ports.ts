/** What the page needs from outside: the core, the store and the offline worker. */

import type { ReadonlySignal } from "@preact/signals";
import type { Store } from "../storage";
import type { Calls } from "./types";

export type CoreState =
  | { state: "loading"; message: string }
  | { state: "ready" }
  | { state: "failed"; reason: string };

export interface Core {
  state: ReadonlySignal<CoreState>;
  /** Rejects with an error whose message is a sentence for people. */
  call<N extends keyof Calls>(name: N, asks: Calls[N]["request"]): Promise<Calls[N]["response"]>;
  /** Starts Python again after it failed. */
  start(): void;
}

export interface Offline {
  /** True once every file is stored on the phone; undefined while it is being found out. */
  ready: ReadonlySignal<boolean | undefined>;
  /** How many files an earlier visit stored are gone from the phone, as far as that is known. */
  gone: ReadonlySignal<number>;
  /** A newer version is stored and waits to be taken. */
  updateWaiting: ReadonlySignal<boolean>;
  update(): void;
}

export interface Ports {
  core: Core;
  store: Store;
  offline: Offline;
}

let connected: Ports | null = null;

export function connect(ports: Ports): void {
  connected = ports;
}

/** The ports the page was started with. */
export function ports(): Ports {
  if (!connected) throw new Error("The page was drawn before it was connected to its core.");
  return connected;
}

/** Why nothing is stored, or what is missing from the store; empty when all is well. */
export function storeTrouble(): string {
  const state = ports().store.state.value;
  if (typeof state === "string") return "";
  if ("failed" in state) return state.failed;
  return "full" in state ? state.full : state.emptied;
}

const KEPT_ON =
  "Your jobs are here all the same: look at them, record readings, save them as a file. " +
  "What you record is counted later.";

/** Why nothing is worked out, and what to do; empty when Python runs or is being started. */
export function coreTrouble(): string {
  const { core, offline } = ports();
  if (core.state.value.state !== "failed") return "";
  const gone = offline.gone.value;
  const why =
    gone > 0
      ? `${gone === 1 ? "one of its files is" : `${gone} of its files are`} no longer on this phone. ` +
        "Connect to a network once, then open this page again."
      : "a file it needs could not be loaded. Where there is no network, connect once; where a content " +
        "blocker is on, allow this site. Then open this page again.";
  return `Footwell cannot work anything out now: ${why} ${KEPT_ON}`;
}
