// Tests of the page's parts that need no browser, bundled for Node's own test runner. As a command it runs them,
// or those whose names hold a word.
import { rmSync } from "node:fs";
import { join } from "node:path";
import { filesBelow } from "../../web/build/files.mjs";
import { CACHE, fromRoot, ROOT } from "../../web/build/paths.mjs";
import { openly } from "../../web/build/setup/run.mjs";
import { isMain } from "../../web/build/setup/say.mjs";

const SOURCES = fromRoot("tests", "page");
const BUILT = join(CACHE, "page-tests");

/** @returns {Promise<string[]>} paths of the bundled tests */
export async function buildNodeTests() {
  const esbuild = await import("esbuild");
  rmSync(BUILT, { recursive: true, force: true });
  const names = filesBelow(SOURCES, (path) => /\.test\.tsx?$/.test(path));
  await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: names.map((name) => join(SOURCES, name)),
    bundle: true,
    platform: "node",
    format: "esm",
    outdir: BUILT,
    outExtension: { ".js": ".mjs" },
    sourcemap: "inline",
    logLevel: "warning",
  });
  return names.map((name) => join(BUILT, name.replace(/\.tsx?$/, ".mjs")));
}

if (isMain(import.meta.url)) {
  const word = process.argv[2] ?? "";
  const files = (await buildNodeTests()).filter((file) => file.includes(word));
  if (files.length === 0) throw new Error(`No test of the page has “${word}” in its name.`);
  process.exit(await openly(process.execPath, ["--test", "--test-reporter=spec", ...files]));
}
