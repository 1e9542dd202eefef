// The versions of Python, of its binary interface and of the wheels that the site ships.
import { join } from "node:path";
import { readJson } from "../files.mjs";
import { fromRoot, PYODIDE } from "../paths.mjs";
import { Stop } from "../setup/say.mjs";

/**
 * @typedef {{ python: string, abi: string, abiVersion: string, platform: string, wheels: Record<string, string> }} Pins
 */

export const PINS_FILE = fromRoot("web", "build", "python", "pins.json");

/** @returns {Pins} */
export const pythonPins = () => readJson(PINS_FILE);

/** @param {string} fileName */
export const wheelName = (fileName) => fileName.split("-")[0] ?? "";

/** @param {Record<string, string>} wheels @param {string} name */
export function wheelVersion(wheels, name) {
  const file = Object.keys(wheels).find((candidate) => wheelName(candidate) === name);
  if (!file) throw new Stop(`web/build/python/pins.json names no wheel of ${name}.`);
  return file.split("-")[1] ?? "";
}

/** Wheels that install other wheels: in the site for the fallback, never in the bundle. */
export const INSTALLERS = ["micropip", "packaging"];

/** What Pyodide says of itself in the lock file it comes with. */
export const pyodideInfo = () => readJson(join(PYODIDE, "pyodide-lock.json")).info;

/** The wheels' tag must be the interpreter's: a wheel of another year is refused only in the browser. */
export function checkInterpreter() {
  const pins = pythonPins();
  const info = pyodideInfo();
  if (info.abi_version === pins.abiVersion && info.python.startsWith(`${pins.python}.`)) return;
  throw new Stop(
    `The installed pyodide is Python ${info.python} with ABI ${info.abi_version}, ` +
      `but web/build/python/pins.json is for Python ${pins.python} with ABI ${pins.abiVersion}. ` +
      "Bring package.json and pins.json together; DEVELOPERS.md says how.",
  );
}
