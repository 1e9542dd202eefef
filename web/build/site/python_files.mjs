// Puts the browser's Python into the site, each file under a name that changes with its content.
import { copyFileSync, mkdirSync } from "node:fs";
import { basename, join } from "node:path";
import { hashOfFiles, sha256OfFile, short } from "../files.mjs";
import { NEXT_SITE, PYODIDE } from "../paths.mjs";
import { INSTALLERS, pyodideInfo, wheelName } from "../python/pins.mjs";
import { WHEELS } from "../python/wheels.mjs";

const INTERPRETER = ["pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm"];
/** Only the fallback asks for it. */
const STOCK_LIBRARY = "python_stdlib.zip";

/** @param {string[]} sources absolute paths @param {string} folder within the site */
function copyInto(sources, folder) {
  mkdirSync(join(NEXT_SITE, folder), { recursive: true });
  for (const path of sources) copyFileSync(path, join(NEXT_SITE, folder, basename(path)));
  return sources.map((path) => `${folder}/${basename(path)}`);
}

/** @param {string} source @param {string} stem @param {string} ending */
function copyHashed(source, stem, ending) {
  const target = `python/${stem}-${short(sha256OfFile(source))}${ending}`;
  copyFileSync(source, join(NEXT_SITE, target));
  return target;
}

function copyInterpreter() {
  const files = [...INTERPRETER, STOCK_LIBRARY].map((name) => join(PYODIDE, name));
  const folder = `python/interpreter-${short(hashOfFiles(files))}`;
  copyInto(files, folder);
  return `${folder}/`;
}

/** @param {string[]} wheels file names @param {string} ownWheel path */
function copyWheels(wheels, ownWheel) {
  const files = [...wheels.map((name) => join(WHEELS, name)), ownWheel];
  const paths = copyInto(files, `python/wheels-${short(hashOfFiles(files))}`);
  const isInstaller = (/** @type {string} */ path) =>
    INSTALLERS.includes(wheelName(basename(path)));
  return {
    installers: paths.filter(isInstaller),
    wheels: paths.filter((path) => !isInstaller(path)),
  };
}

/**
 * @param {{ coreWasm: string, corePlace: string, wheels: string[] }} base
 * @param {{ zip: string, wheel: string }} bundle
 * @returns {import("../../src/worker/protocol").PythonFiles}
 */
export function copyPython(base, bundle) {
  return {
    interpreter: copyInterpreter(),
    bundle: copyHashed(bundle.zip, "footwell", ".zip"),
    // Under this ending hosts send the type that compiling while streaming asks for.
    coreWasm: copyHashed(base.coreWasm, "pydantic_core", ".wasm"),
    corePlace: base.corePlace,
    ...copyWheels(base.wheels, bundle.wheel),
    lock: { info: pyodideInfo(), packages: {} },
  };
}

/** Says where the build put things; for tests and benchmarks, which start the interpreter themselves. */
export const BUILD_NOTE = "build.json";

/** Whether a file is kept from the offline store. The fallback is for a host that serves a bad bundle. @param {string} path */
export const isOnlineOnly = (path) =>
  path === BUILD_NOTE || path.startsWith("python/wheels-") || path.endsWith(`/${STOCK_LIBRARY}`);
