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
  /** True once every file is stored on the phone. */
  /** Undefined while it is being found out. */
  ready: ReadonlySignal<boolean | undefined>;
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
