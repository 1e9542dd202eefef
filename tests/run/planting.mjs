// A bug planted in one source file while it is bundled. A plant that no longer fits fails by itself.
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { fromRoot } from "../../web/build/paths.mjs";

/**
 * @param {string} [file] relative to the repository; none plants nothing
 * @param {string} [right] as it stands there, once
 * @param {string} [wrong] what a careless hand would have written
 * @returns {import("esbuild").Plugin[]}
 */
export function planting(file, right = "", wrong = "") {
  if (!file) return [];
  /** @param {import("esbuild").OnLoadArgs} asked */
  const planted = ({ path }) => {
    if (path !== fromRoot(file)) return undefined;
    const source = readFileSync(path, "utf8");
    if (source.split(right).length !== 2) throw new Error(`the bug no longer fits into ${file}`);
    const contents = source.replace(right, () => wrong);
    return { contents, loader: /** @type {"ts" | "tsx"} */ (path.split(".").at(-1)) };
  };
  const filter = new RegExp(`${basename(file).replaceAll(".", "\\.")}$`);
  return [{ name: "plant", setup: (build) => build.onLoad({ filter }, planted) }];
}
