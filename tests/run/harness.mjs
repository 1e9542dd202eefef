// Puts the pages that tests and benchmarks need beside the built site, in a copy of it; a bug may be planted
// in one of their files: node harness.mjs SITE [FILE RIGHT WRONG]
import { join, resolve } from "node:path";
import { readJson, write } from "../../web/build/files.mjs";
import { ROOT } from "../../web/build/paths.mjs";
import { planting } from "./planting.mjs";

const [folder = "", ...bug] = process.argv.slice(2);
const site = resolve(folder);
const TARGET = join(site, "harness");

/** The page's entry points, by the name they get in the site. */
const SCRIPTS = {
  bridge: "tests/browser/boot/harness.ts",
  bench: "tests/bench/page/bench.ts",
  bench_worker: "tests/bench/page/bench_worker.ts",
  naive_worker: "tests/bench/page/naive_worker.ts",
};
const PAGES = ["bridge", "bench"];

/** @param {string} name */
const page = (name) => `<!doctype html><html lang="en"><meta charset="utf-8"><title>${name}</title>
<script type="module" src="${name}.js"></script></html>
`;

function constants() {
  const { python, worker, imageWorker } = readJson(join(site, "build.json"));
  const own = [`/${worker}`, `/${imageWorker}`];
  const files = [...own, "/harness/bench_worker.js", "/harness/naive_worker.js"];
  const [WORKER_FILE, IMAGE_WORKER_FILE] = own;
  return { WORKER_FILE, IMAGE_WORKER_FILE, SCRIPT_FILES: files, PYTHON_FILES: python };
}

/** @param {Record<string, unknown>} values */
async function buildScripts(values) {
  const esbuild = await import("esbuild");
  const define = Object.entries(values).map(([name, value]) => [name, JSON.stringify(value)]);
  await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: SCRIPTS,
    bundle: true,
    format: "esm",
    outdir: TARGET,
    define: Object.fromEntries(define),
    plugins: planting(...bug),
    logLevel: "warning",
  });
}

await buildScripts(constants());
for (const name of PAGES) write(join(TARGET, `${name}.html`), page(name));
