// The bundle: the base with the core added. Made anew only when the core changed.
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { filesBelow, hashOfFiles, short } from "../files.mjs";
import { CACHE, CORE, fromRoot } from "../paths.mjs";
import { say } from "../setup/say.mjs";
import { inPython, startPyodide } from "./interpreter.mjs";
import { leftOut } from "./left_out.mjs";

const isSource = (/** @type {string} */ name) => !/__pycache__|\.pyc$/.test(name);

export const coreFiles = () => filesBelow(CORE, isSource);

/** @param {string} baseKey */
function bundleKey(baseKey) {
  const files = coreFiles().map((name) => join(CORE, name));
  return short(hashOfFiles([...files, fromRoot("py", "pyproject.toml")], [baseKey]));
}

/** Bundles of earlier states of the core are of no use to anyone. @param {string} kept */
function removeOld(kept) {
  const old = readdirSync(CACHE).filter((name) => /^bundle-/.test(name) && name !== kept);
  for (const name of old) rmSync(join(CACHE, name), { recursive: true });
}

/** @param {string} base path of the base's archive @param {string} making a folder in the cache */
async function makeBundle(base, making) {
  mkdirSync(join(CACHE, making), { recursive: true });
  const python = await startPyodide({ stdLib: base });
  const bundle = python.pyimport("bundle");
  const core = "/project/py/footwell";
  const inCache = `/cache${base.slice(CACHE.length)}`;
  bundle.write_bundle(inCache, core, `/cache/${making}/footwell.zip`, python.toPy(leftOut()));
  bundle.write_wheel(core, "/project/py/pyproject.toml", `/cache/${making}`);
}

/**
 * @param {{ zip: string, key: string }} base
 * @returns {Promise<{ zip: string, wheel: string }>} paths of the bundle, and of the core as a wheel
 */
export async function ensureBundle(base) {
  const name = `bundle-${bundleKey(base.key)}`;
  const folder = join(CACHE, name);
  if (!existsSync(folder)) {
    say("Compiling the core");
    const making = `making-${name}`;
    await inPython(() => makeBundle(base.zip, making));
    renameSync(join(CACHE, making), folder);
    removeOld(name);
  }
  const wheel = readdirSync(folder).find((file) => file.endsWith(".whl")) ?? "";
  return { zip: join(folder, "footwell.zip"), wheel: join(folder, wheel) };
}
