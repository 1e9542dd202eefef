// Two builds at once would take each other's files away: the second waits.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { CACHE } from "../paths.mjs";
import { say } from "./say.mjs";

const LOCK = join(CACHE, "building");

/** @returns {boolean} whether we have it now */
function take() {
  try {
    writeFileSync(LOCK, String(process.pid), { flag: "wx" });
    return true;
  } catch {
    return false;
  }
}

function ownerIsGone() {
  try {
    process.kill(Number(readFileSync(LOCK, "utf8")), 0);
    return false;
  } catch (error) {
    return /** @type {NodeJS.ErrnoException} */ (error).code === "ESRCH";
  }
}

/** @param {() => Promise<void>} work */
export async function withLock(work) {
  mkdirSync(CACHE, { recursive: true });
  for (let tries = 0; !take(); tries++) {
    if (tries === 0) say("Waiting for another build");
    if (ownerIsGone()) rmSync(LOCK, { force: true });
    else await sleep(200);
  }
  try {
    await work();
  } finally {
    rmSync(LOCK, { force: true });
  }
}
