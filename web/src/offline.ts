// How far this device can go without a network, and whether a newer version waits.
import { type ReadonlySignal, signal } from "@preact/signals";
import type { FromWorker, ToWorker } from "../../service_worker/messages";
import { scriptUrl } from "./trusted";

declare const SERVICE_WORKER_FILE: string;

export type OfflineState =
  /** An earlier visit stored the site; how much of it is still there is being counted. */
  | { state: "looking" }
  | { state: "not yet" }
  | { state: "storing"; stored: number; of: number }
  | { state: "ready offline" };

/** Whether this page came from the store of an earlier visit. */
export const isFromStore = () => Boolean(navigator.serviceWorker?.controller);

const state = signal<OfflineState>({ state: isFromStore() ? "looking" : "not yet" });
const waiting = signal<ServiceWorker | undefined>(undefined);

/** "ready offline" is said only when the last file is stored. */
export const offlineState: ReadonlySignal<OfflineState> = state;

/** A newer version is stored and waits to be taken. */
export const updateWaiting = (): boolean => waiting.value !== undefined;

/** Take the newer version: the page is loaded again under it. */
export function applyUpdate() {
  const container = navigator.serviceWorker;
  container.addEventListener("controllerchange", () => location.reload(), { once: true });
  if (waiting.value) say(waiting.value, { say: "take over" });
}

const say = (worker: ServiceWorker, message: ToWorker) => worker.postMessage(message);

export const ownRelease = () =>
  document.querySelector<HTMLMetaElement>("meta[name=release]")?.content;

/** Files of this release stay on the device as long as this page holds the lock. */
function holdRelease() {
  const hold = () => new Promise<never>(() => {});
  navigator.locks.request(`footwell-release-${ownRelease()}`, { mode: "shared" }, hold);
}

/** An update being stored does not touch what is said of the running version. */
function heard({ release, stored, of }: FromWorker) {
  if (release !== ownRelease()) return;
  state.value =
    stored === of && isKept() ? { state: "ready offline" } : { state: "storing", stored, of };
}

let registration: ServiceWorkerRegistration | undefined;
const isKept = () => registration?.active !== null && registration?.active !== undefined;

function follow(worker: ServiceWorker) {
  const look = () => {
    waiting.value = registration?.waiting ?? undefined;
    if (worker.state === "activated") say(worker, { say: "check" });
  };
  worker.addEventListener("statechange", look);
  look();
}

function watch(made: ServiceWorkerRegistration) {
  registration = made;
  for (const worker of [made.active, made.waiting, made.installing]) if (worker) follow(worker);
  made.addEventListener("updatefound", () => made.installing && follow(made.installing));
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") made.update().catch(() => {});
  });
}

/** Start storing the site on this device. Does nothing where the browser cannot. */
export async function startOffline() {
  const container = navigator.serviceWorker;
  if (!container) return;
  holdRelease();
  container.addEventListener("message", (event: MessageEvent<FromWorker>) => heard(event.data));
  const url = scriptUrl(new URL(SERVICE_WORKER_FILE, document.baseURI));
  watch(await container.register(url, { updateViaCache: "none" }));
}
