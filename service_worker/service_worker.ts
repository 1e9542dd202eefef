// Keeps the site for use without a network. An update waits until the person takes it.
import type { FromWorker, ToWorker } from "./messages";
import { files, release } from "./release";
import { worker } from "./scope";
import { isOurs, serve } from "./serve";
import { countStored, storeAll, storeLost } from "./store";
import { tidy } from "./tidy";

async function tellPages(stored: number) {
  const message: FromWorker = { release, stored, of: files.length };
  const pages = await worker.clients.matchAll({ includeUncontrolled: true, type: "window" });
  for (const page of pages) page.postMessage(message);
}

async function check() {
  await tellPages(await countStored());
  await tidy();
  await storeLost().catch(() => {});
  await tellPages(await countStored());
}

async function activate() {
  await worker.clients.claim();
  await tidy();
}

worker.addEventListener("install", (event) => event.waitUntil(storeAll(tellPages)));
worker.addEventListener("activate", (event) => event.waitUntil(activate()));

worker.addEventListener("fetch", (event) => {
  if (isOurs(event.request)) event.respondWith(serve(event.request));
});

worker.addEventListener("message", (event) => {
  const message = event.data as ToWorker;
  if (message.say === "take over") event.waitUntil(worker.skipWaiting());
  if (message.say === "check") event.waitUntil(check());
});
