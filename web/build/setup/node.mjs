// Node itself and the packages from package-lock.json.
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { sha256OfFile } from "../files.mjs";
import { fromRoot } from "../paths.mjs";
import { quietly } from "./run.mjs";
import { Stop, say } from "./say.mjs";

const OLDEST_NODE = 20;

export function checkNode(version = process.versions.node) {
  const major = Number(version.split(".")[0]);
  if (major < OLDEST_NODE) {
    throw new Stop(`Footwell needs Node ${OLDEST_NODE} or newer; this is Node ${version}.`);
  }
}

/** Install the locked packages; does nothing when that is done already. */
export function ensureNodeModules() {
  const stamp = fromRoot("node_modules", ".footwell-installed");
  const wanted = sha256OfFile(fromRoot("package-lock.json"));
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  say("Installing the packages of the page");
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  quietly(npm, ["ci", "--no-audit", "--no-fund"], {
    because: "npm ci failed; is there a network?",
  });
  writeFileSync(stamp, wanted);
}
