// The part of the bundle that changes only with a version: standard library and wheels, compiled.
import { existsSync, mkdirSync, renameSync } from "node:fs";
import { join } from "node:path";
import { hashOfFiles, short } from "../files.mjs";
import { CACHE, fromRoot, PYODIDE } from "../paths.mjs";
import { say } from "../setup/say.mjs";
import { inPython, installWheels, startPyodide } from "./interpreter.mjs";
import { leftOut } from "./left_out.mjs";
import { checkInterpreter, PINS_FILE } from "./pins.mjs";
import { ensureWheels } from "./wheels.mjs";

const here = (/** @type {string} */ name) => fromRoot("web", "build", "python", name);
const SOURCES = [
  "bundle.py",
  "footwell_boot.py",
  "licences.py",
  "left_out.txt",
  "base.mjs",
  "interpreter.mjs",
].map(here);
const CORE_PLACE =
  "/lib/python3.14/site-packages/pydantic_core/_pydantic_core.cpython-314-wasm32-emscripten.so";

const baseKey = () =>
  short(hashOfFiles([...SOURCES, PINS_FILE, join(PYODIDE, "python_stdlib.zip")]));

/** @param {string[]} wheels @param {string} folder */
async function makeBase(wheels, folder) {
  const python = await startPyodide();
  await installWheels(python, wheels);
  const bundle = python.pyimport("bundle");
  const licences = python.pyimport("licences");
  const inside = `/cache/${folder}`;
  const boot = "/project/web/build/python/footwell_boot.py";
  bundle.write_base(`${inside}/base.zip`, boot, python.toPy(leftOut()));
  const places = wheels.map((name) => `/wheels/${name}`);
  licences.write_notices(python.toPy(places), `${inside}/notices.json`);
  python.FS.writeFile(`${inside}/pydantic_core.wasm`, python.FS.readFile(CORE_PLACE));
}

/**
 * @returns {Promise<{ zip: string, notices: string, coreWasm: string, corePlace: string, wheels: string[], key: string }>}
 */
export async function ensureBase() {
  checkInterpreter();
  const wheels = ensureWheels();
  const key = baseKey();
  const folder = join(CACHE, `base-${key}`);
  if (!existsSync(folder)) {
    say("Compiling Python's library for the browser (once)");
    const making = `base-${key}.making`;
    mkdirSync(join(CACHE, making), { recursive: true });
    await inPython(() => makeBase(wheels, making));
    renameSync(join(CACHE, making), folder);
  }
  return {
    zip: join(folder, "base.zip"),
    notices: join(folder, "notices.json"),
    coreWasm: join(folder, "pydantic_core.wasm"),
    corePlace: CORE_PLACE,
    wheels,
    key,
  };
}
