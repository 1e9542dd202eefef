// Pyodide under Node, for the build alone: it installs the wheels and compiles.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { CACHE, ROOT } from "../paths.mjs";
import { Stop } from "../setup/say.mjs";
import { INSTALLERS, wheelName } from "./pins.mjs";
import { WHEELS } from "./wheels.mjs";

const SCRIPTS = ["bundle.py", "licences.py"];

/**
 * Start Pyodide with the project's folders mounted and the scripts beside this file importable.
 * @param {{ stdLib?: string }} [options] another standard library, as a path
 */
export async function startPyodide({ stdLib } = {}) {
  const { loadPyodide } = await import("pyodide");
  const python = await loadPyodide(stdLib ? { stdLibURL: stdLib } : {});
  for (const [place, folder] of [
    ["/cache", CACHE],
    ["/wheels", WHEELS],
    ["/project", ROOT],
  ]) {
    python.FS.mkdirTree(/** @type {string} */ (place));
    python.mountNodeFS(/** @type {string} */ (place), /** @type {string} */ (folder));
  }
  for (const name of SCRIPTS) {
    python.FS.writeFile(`/home/pyodide/${name}`, readFileSync(new URL(name, import.meta.url)));
  }
  return python;
}

/**
 * Let micropip install the wheels from this machine's files alone.
 * @param {import("pyodide").PyodideAPI} python
 * @param {string[]} wheels file names
 */
export async function installWheels(python, wheels) {
  const isInstaller = (/** @type {string} */ file) => INSTALLERS.includes(wheelName(file));
  const installers = wheels.filter(isInstaller).map((file) => join("/wheels", file));
  const others = wheels.filter((file) => !isInstaller(file)).map((file) => `emfs:/wheels/${file}`);
  python.globals.set("installers", python.toPy(installers));
  python.globals.set("others", python.toPy(others));
  await python.runPythonAsync(`
import sys
sys.path[:0] = installers
import micropip
micropip.set_index_urls([])
await micropip.install(others)
`);
}

/**
 * Do something with the build's Python; what it raises becomes a sentence for the terminal.
 * @template T
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function inPython(work) {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof Error) || error.name !== "PythonError") throw error;
    throw new Stop(lastWords(error.message));
  }
}

/** The end of a Python traceback: what was raised, and where in a source file if that is known. */
function lastWords(/** @type {string} */ traceback) {
  const lines = traceback.trim().split("\n");
  const own = lines.findLastIndex((line) => line.startsWith('  File "footwell/'));
  return lines.slice(own === -1 ? -1 : own).join("\n");
}
