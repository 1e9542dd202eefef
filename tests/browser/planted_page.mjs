// Builds the page into a copy of the site with a bug planted in one of its files:
// node planted_page.mjs SITE FILE RIGHT WRONG
import { readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import * as esbuild from "esbuild";
import { readJson } from "../../web/build/files.mjs";
import { ROOT } from "../../web/build/paths.mjs";
import { planting } from "../run/planting.mjs";

const [site = "", ...bug] = process.argv.slice(2);
const SCRIPTS = ["start", "main"];

const { python, worker, imageWorker, circuits } = readJson(join(site, "build.json"));
const values = {
  WORKER_FILE: worker,
  IMAGE_WORKER_FILE: imageWorker,
  SERVICE_WORKER_FILE: "service_worker.js",
  SCRIPT_FILES: [worker, imageWorker, "service_worker.js"],
  PYTHON_FILES: python,
  CIRCUITS_FILE: circuits,
};
await esbuild.build({
  absWorkingDir: ROOT,
  entryPoints: { start: "web/src/start.ts", main: "web/src/main.tsx" },
  bundle: true,
  splitting: true,
  format: "esm",
  jsx: "automatic",
  jsxImportSource: "preact",
  outdir: join(resolve(site), "assets"),
  entryNames: "[name]-PLANTED",
  define: Object.fromEntries(Object.entries(values).map(([k, v]) => [k, JSON.stringify(v)])),
  plugins: planting(...bug),
  sourcemap: process.env.FOOTWELL_BRANCHES ? "inline" : false,
  logLevel: "warning",
});

const page = join(site, "index.html");
let text = readFileSync(page, "utf8");
for (const name of SCRIPTS)
  text = text.replace(new RegExp(`assets/${name}-\\w+\\.js`), `assets/${name}-PLANTED.js`);
writeFileSync(`${page}.new`, text);
