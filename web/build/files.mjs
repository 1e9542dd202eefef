// Small helpers over the file system that several build steps share.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";

/** @param {string | Uint8Array} bytes */
export const sha256 = (bytes) => createHash("sha256").update(bytes).digest("hex");

/** @param {string} path */
export const sha256OfFile = (path) => sha256(readFileSync(path));

/** The first characters of a hash, as they stand in file names. @param {string} hash */
export const short = (hash) => hash.slice(0, 10);

/** @param {string} path @returns {any} */
export const readJson = (path) => JSON.parse(readFileSync(path, "utf8"));

/** @param {string} path @param {string | Uint8Array} content */
export function write(path, content) {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, content);
}

/**
 * All files below a folder, with forward slashes, in one fixed order.
 * @param {string} folder
 * @param {(path: string) => boolean} [wanted]
 * @returns {string[]} paths relative to the folder
 */
export function filesBelow(folder, wanted = () => true) {
  if (!existsSync(folder)) return [];
  const names = /** @type {string[]} */ (
    readdirSync(folder, { recursive: true, encoding: "utf8" })
  );
  return names
    .filter((name) => statSync(join(folder, name)).isFile())
    .map((name) => relative(folder, join(folder, name)).split(sep).join("/"))
    .filter(wanted)
    .sort();
}

/**
 * One hash over names and contents of files: the same inputs always give the same key.
 * @param {string[]} paths absolute paths
 * @param {string[]} [words] anything else the result depends on
 */
export function hashOfFiles(paths, words = []) {
  const parts = paths.map((path) => `${path} ${sha256OfFile(path)}`);
  return sha256([...parts, ...words].join("\n"));
}
