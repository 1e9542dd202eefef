// Tests of the page's parts that need no browser, bundled for Node's own test runner.
import { rmSync } from "node:fs";
import { join } from "node:path";
import { filesBelow } from "../../web/build/files.mjs";
import { CACHE, fromRoot, ROOT } from "../../web/build/paths.mjs";

const SOURCES = fromRoot("tests", "page");
const BUILT = join(CACHE, "page-tests");

/** @returns {Promise<string[]>} paths of the bundled tests */
export async function buildNodeTests() {
  const esbuild = await import("esbuild");
  rmSync(BUILT, { recursive: true, force: true });
  const names = filesBelow(SOURCES, (path) => path.endsWith(".test.ts"));
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
  return names.map((name) => join(BUILT, name.replace(/\.ts$/, ".mjs")));
}
