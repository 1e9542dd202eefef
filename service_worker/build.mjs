// Lists the files of a site with their hashes and builds the offline worker that keeps them.
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { filesBelow, sha256, sha256OfFile, short, write } from "../web/build/files.mjs";
import { isForFallback } from "../web/build/site/python_files.mjs";
import { buildScript } from "../web/build/site/scripts.mjs";

/** @typedef {import("./release").ListedFile} ListedFile */

/** The largest files, the same in most releases, are kept apart so that an update need not copy them. */
const isInterpreter = (/** @type {string} */ path) =>
  path.startsWith("python/interpreter-") || path.startsWith("python/pydantic_core-");

/** @param {string} site @param {string} path @returns {ListedFile} */
function listed(site, path) {
  const file = join(site, path);
  const shared = isInterpreter(path);
  return { path, sha256: sha256OfFile(file), bytes: statSync(file).size, shared };
}

/** @param {ListedFile[]} files */
const hashOf = (files) => short(sha256(files.map((file) => file.path + file.sha256).join("\n")));

/**
 * The page names its release, so that its files are kept as long as it is open. It is part of the
 * release itself: the name is taken before it is written into the page.
 * @param {string} site
 */
function nameRelease(site) {
  const files = filesBelow(site, (path) => !isForFallback(path));
  const release = hashOf(files.map((path) => listed(site, path)));
  const page = join(site, "index.html");
  write(page, readFileSync(page, "utf8").replace("<!-- release -->", releaseTag(release)));
  return { release, files: files.map((path) => listed(site, path)) };
}

/** @param {string} release */
const releaseTag = (release) => `<meta name="release" content="${release}">`;

/** @param {string} site @param {string} target file name of the worker in the site */
export async function buildServiceWorker(site, target) {
  const { release, files } = nameRelease(site);
  const interpreter = hashOf(files.filter((file) => file.shared));
  const values = { RELEASE: { release, interpreter, files } };
  await buildScript("service_worker/service_worker.ts", values, {
    entryNames: target.replace(/\.js$/, ""),
    format: "iife",
    outdir: site,
  });
}
