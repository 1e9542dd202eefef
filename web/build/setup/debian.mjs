// Packages of the operating system: installed where that is possible, named where it is not.

import { quietly, tried } from "./run.mjs";
import { Stop, say } from "./say.mjs";

const mayInstall = () => process.getuid?.() === 0 && tried("apt-get", ["--version"]).ok;

/** @param {string} program */
export const isThere = (program) => tried("sh", ["-c", `command -v ${program}`]).ok;

/**
 * @param {string[]} names Debian packages
 * @param {string} purpose what they are for, as the end of "... is needed "
 */
export function installDebian(names, purpose) {
  const list = names.join(" ");
  if (!mayInstall()) {
    throw new Stop(`${list} is needed ${purpose}. On Debian: sudo apt-get install ${list}`);
  }
  say(`Installing ${list} ${purpose}`);
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  quietly("apt-get", ["update", "-q"], {
    env,
    because: "apt-get update failed; is there a network?",
  });
  const install = ["install", "-y", "-q", "--no-install-recommends", ...names];
  quietly("apt-get", install, { env, because: `apt-get could not install ${list}.` });
}

/**
 * Make sure that programs can be run, each from the Debian package of the same name.
 * @param {string[]} programs
 * @param {string} purpose
 */
export function ensurePrograms(programs, purpose) {
  const missing = programs.filter((program) => !isThere(program));
  if (missing.length > 0) installDebian(missing, purpose);
}
