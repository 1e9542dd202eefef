// Old releases go when no page of theirs is open any more.
import { APP, appCache, INTERPRETER, interpreterCache, lockOf } from "./release";
import { worker } from "./scope";

async function openReleases(): Promise<Set<string>> {
  const { held = [] } = await navigator.locks.query();
  return new Set(held.map((lock) => lock.name ?? ""));
}

function isOld(name: string): boolean {
  const app = name.startsWith(APP) && name !== appCache;
  const interpreter = name.startsWith(INTERPRETER) && name !== interpreterCache;
  return app || interpreter;
}

/** Remove what nobody uses; an update that is being stored, and all that came before, stays. */
export async function tidy() {
  if (worker.registration.installing || worker.registration.waiting) return;
  const old = (await caches.keys()).filter(isOld);
  const locks = await openReleases();
  const inUse = (name: string) => locks.has(lockOf(name.slice(APP.length)));
  // An open page of an old release may still need the interpreter of that release.
  if (old.some((name) => name.startsWith(APP) && inUse(name))) return;
  await Promise.all(old.map((name) => caches.delete(name)));
}
