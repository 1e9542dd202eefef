// Builds the page into a copy of the site with a bug planted in one of its files:
// node planted_page.mjs SITE FILE RIGHT WRONG. A plant that no longer fits fails by itself.
import { readFileSync, writeFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import * as esbuild from "esbuild";
import { readJson } from "../../web/build/files.mjs";
import { fromRoot, ROOT } from "../../web/build/paths.mjs";

const [site = "", file = "", right = "", wrong = ""] = process.argv.slice(2);
const SCRIPTS = ["start", "main"];

/** @type {import("esbuild").Plugin} */
const plant = {
  name: "plant",
  setup(build) {
    build.onLoad({ filter: new RegExp(`${basename(file)}$`) }, ({ path }) => {
      if (path !== fromRoot(file)) return undefined;
      const source = readFileSync(path, "utf8");
      if (source.split(right).length !== 2) throw new Error(`the bug no longer fits into ${file}`);
      return {
        contents: source.replace(right, () => wrong),
        loader: path.endsWith("x") ? "tsx" : "ts",
      };
    });
  },
};

const { python, worker } = readJson(join(site, "build.json"));
const values = {
  WORKER_FILE: worker,
  SERVICE_WORKER_FILE: "service_worker.js",
  SCRIPT_FILES: [worker, "service_worker.js"],
  PYTHON_FILES: python,
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
  plugins: [plant],
  logLevel: "warning",
});

const page = join(site, "index.html");
let text = readFileSync(page, "utf8");
for (const name of SCRIPTS)
  text = text.replace(new RegExp(`assets/${name}-\\w+\\.js`), `assets/${name}-PLANTED.js`);
writeFileSync(`${page}.new`, text);
