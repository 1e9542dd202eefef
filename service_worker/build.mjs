// Lists the files of a site with their hashes and builds the offline worker that keeps them.
import { readFileSync, statSync } from "node:fs";
import { join, resolve } from "node:path";
import { filesBelow, sha256, sha256OfFile, short, write } from "../web/build/files.mjs";
import { isMain } from "../web/build/setup/say.mjs";
import { isOnlineOnly } from "../web/build/site/python_files.mjs";
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

/** Where the release's name stands in the page. */
const PLACE = /<!-- release -->|<meta name="release"[^>]*>/;

/** @param {string} site @param {string} tag */
function writeTag(site, tag) {
  const page = join(site, "index.html");
  write(page, readFileSync(page, "utf8").replace(PLACE, tag));
}

/**
 * The page names its release, so that its files are kept as long as it is open. The page is part of
 * the release itself: the name is made of all files before it is written into the page.
 * @param {string} site
 * @param {string} target the worker itself, which is not listed
 */
function nameRelease(site, target) {
  const paths = filesBelow(site, (path) => !isOnlineOnly(path) && path !== target);
  const all = () => paths.map((path) => listed(site, path));
  writeTag(site, "<!-- release -->");
  const release = hashOf(all());
  writeTag(site, `<meta name="release" content="${release}">`);
  return { release, files: all() };
}

/**
 * @param {string} site
 * @param {string} [target] file name of the worker in the site
 */
export async function buildServiceWorker(site, target = "service_worker.js") {
  const { release, files } = nameRelease(site, target);
  const interpreter = hashOf(files.filter((file) => file.shared));
  const values = { RELEASE: { release, interpreter, files } };
  await buildScript("service_worker/service_worker.ts", values, {
    entryNames: target.replace(/\.js$/, ""),
    format: "iife",
    outdir: site,
  });
}

// With a folder: list its files anew, after they were changed by hand.
if (isMain(import.meta.url)) await buildServiceWorker(resolve(process.argv[2] ?? ""));
