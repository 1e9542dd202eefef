// The licences of everything that the site ships, as one page of text.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { filesBelow, readJson, write } from "../files.mjs";
import { fromRoot, NEXT_SITE } from "../paths.mjs";
import { Stop } from "../setup/say.mjs";

const NPM_PACKAGES = ["preact", "@preact/signals", "@preact/signals-core", "pyodide"];
const COMMITTED = fromRoot("web", "build", "licences");

/** @typedef {{ name: string, version: string, licence: string, text: string }} Notice */

/** @param {string} name @returns {Notice} */
function ofNpmPackage(name) {
  const folder = fromRoot("node_modules", name);
  const { version, license } = readJson(join(folder, "package.json"));
  const [file] = filesBelow(folder, (path) => /^licen[cs]e(\.\w+)?$/i.test(path));
  const text = file ? readFileSync(join(folder, file), "utf8") : committed(name);
  return { name, version, licence: license, text };
}

/** For packages that come without their text. @param {string} name */
function committed(name) {
  const path = join(COMMITTED, `${name}.txt`);
  if (existsSync(path)) return readFileSync(path, "utf8");
  throw new Stop(
    `${name} comes without its licence, and web/build/licences/${name}.txt is not there.`,
  );
}

/** @param {string} version @returns {Notice} */
const python = (version) => ({
  name: "CPython",
  version,
  licence: "PSF-2.0",
  text: committed("cpython"),
});

/** @param {Notice} notice */
const section = ({ name, version, licence, text }) =>
  [`${"=".repeat(78)}`, `${name} ${version} (${licence})`, "", text.trim(), ""].join("\n");

/** @param {string} ofWheels path of the wheels' notices @param {string} pythonVersion */
export function writeNotices(ofWheels, pythonVersion) {
  const own = readFileSync(fromRoot("LICENSE"), "utf8");
  const notices = [
    ...NPM_PACKAGES.map(ofNpmPackage),
    python(pythonVersion),
    .../** @type {Notice[]} */ (readJson(ofWheels)),
  ];
  const head = `Footwell\n\n${own.trim()}\n\nThis site also ships the following.\n`;
  write(join(NEXT_SITE, "NOTICES.txt"), [head, ...notices.map(section)].join("\n"));
}
