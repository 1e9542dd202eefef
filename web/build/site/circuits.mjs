// The library of sample circuits: the sheets as they are, and a list of them. Their names change with their
// content, so that an open page of an old release finds its own.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { filesBelow, sha256, short, write } from "../files.mjs";
import { fromRoot, NEXT_SITE } from "../paths.mjs";
import { Stop } from "../setup/say.mjs";

const FOLDER = fromRoot("fixtures", "circuits");
const SHOWN = ["id", "title", "vehicle", "system_volts", "summary"];

/** What a person looks for, by the kind of a load.
 * @type {[string, RegExp][]} */
const ABOUT = [
  ["motors", /motor$/],
  ["lamps", /lamp$/],
  ["heaters", /heater$|^glow_plug$/],
  ["horns", /^horn$/],
  ["sensors", /^module_input$/],
  ["batteries", /battery$/],
  ["data bus", /^bus_unit$/],
];

/** @param {string} stem @param {string} text @returns {string} its path in the site */
function writeHashed(stem, text) {
  const path = `assets/circuits/${stem}-${short(sha256(text))}.json`;
  write(join(NEXT_SITE, path), text);
  return path;
}

/** @param {string} file @returns {Record<string, unknown>} */
function entry(file) {
  const text = readFileSync(join(FOLDER, file), "utf8");
  const sheet = parsed(file, text);
  const shown = Object.fromEntries(SHOWN.map((field) => [field, sheet[field]]));
  const path = writeHashed(file.replace(/\.json$/, ""), text);
  return { ...shown, about: about(file, sheet), file: path };
}

/** @param {string} file @param {Record<string, any>} sheet */
function about(file, { loads, parts }) {
  const kinds = /** @type {{ id: string, kind: string }[]} */ (parts)
    .filter(({ id }) => loads.includes(id))
    .map(({ kind }) => kind);
  const found = ABOUT.filter(([, known]) => kinds.some((kind) => known.test(kind)));
  if (found.length === 0) throw new Stop(`fixtures/circuits/${file}: its loads are of no group.`);
  return found.map(([name]) => name);
}

/** @param {string} file @param {string} text @returns {Record<string, any>} */
function parsed(file, text) {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Stop(`fixtures/circuits/${file} is not JSON: ${error}`);
  }
}

/** @returns {string} the list's path in the site */
export function copyCircuits() {
  const files = filesBelow(FOLDER, (name) => name.endsWith(".json"));
  const list = files.map(entry).sort((a, b) => (String(a.title) < String(b.title) ? -1 : 1));
  return writeHashed("list", `${JSON.stringify(list, null, 1)}\n`);
}
