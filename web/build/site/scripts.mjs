// Bundles the page's and the worker's TypeScript.
import { relative } from "node:path";
import { fromRoot, NEXT_SITE, ROOT } from "../paths.mjs";

const HASHED = "[name]-[hash]";

/** @returns {import("esbuild").BuildOptions} */
const common = () => ({
  absWorkingDir: ROOT,
  bundle: true,
  format: "esm",
  target: ["es2022"],
  jsx: "automatic",
  jsxImportSource: "preact",
  minify: true,
  legalComments: "none",
  logLevel: "warning",
  metafile: true,
  outdir: `${NEXT_SITE}/assets`,
  entryNames: HASHED,
  chunkNames: HASHED,
  assetNames: HASHED,
});

/**
 * @param {import("esbuild").Metafile | undefined} metafile
 * @param {string} source relative to the repository
 */
function outputOf(metafile, source) {
  const outputs = Object.entries(metafile?.outputs ?? {});
  const found = outputs.find(([, about]) => about.entryPoint === source);
  if (!found) throw new Error(`esbuild made nothing of ${source}`);
  const [file, about] = found;
  const inSite = (/** @type {string} */ path) => relative(NEXT_SITE, fromRoot(path));
  return { script: inSite(file), style: about.cssBundle && inSite(about.cssBundle) };
}

/**
 * @param {Record<string, unknown>} values
 * @returns {Record<string, string>}
 */
const constants = (values) =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [name, JSON.stringify(value)]));

/**
 * One script that stands alone.
 * @param {string} source relative to the repository
 * @param {Record<string, unknown>} values constants that only the build knows
 * @param {import("esbuild").BuildOptions} [options]
 * @returns {Promise<string>} its path in the site
 */
export async function buildScript(source, values, options = {}) {
  const esbuild = await import("esbuild");
  const define = constants(values);
  const built = await esbuild.build({ ...common(), entryPoints: [source], define, ...options });
  return outputOf(built.metafile, source).script;
}

/**
 * The page: scripts that share their common parts, and the style sheets they import.
 * @param {Record<string, unknown>} values
 */
export async function buildPage(values) {
  const esbuild = await import("esbuild");
  const sources = ["web/src/start.ts", "web/src/main.tsx"];
  const define = constants(values);
  const built = await esbuild.build({ ...common(), entryPoints: sources, splitting: true, define });
  const outputs = sources.map((source) => outputOf(built.metafile, source));
  return {
    scripts: outputs.map(({ script }) => script),
    styles: outputs.flatMap(({ style }) => (style ? [style] : [])),
  };
}
