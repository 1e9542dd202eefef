// The library of sample circuits: the sheets as they are, and a list of them.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { filesBelow, write } from "../files.mjs";
import { fromRoot, NEXT_SITE } from "../paths.mjs";
import { Stop } from "../setup/say.mjs";

const FOLDER = fromRoot("fixtures", "circuits");
const SHOWN = ["id", "title", "vehicle", "system_volts", "summary"];

/** @param {string} file */
function entry(file) {
  const text = readFileSync(join(FOLDER, file), "utf8");
  write(join(NEXT_SITE, "circuits", file), text);
  const sheet = parsed(file, text);
  return { ...Object.fromEntries(SHOWN.map((field) => [field, sheet[field]])), file };
}

/** @param {string} file @param {string} text @returns {Record<string, unknown>} */
function parsed(file, text) {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Stop(`fixtures/circuits/${file} is not JSON: ${error}`);
  }
}

export function copyCircuits() {
  const files = filesBelow(FOLDER, (name) => name.endsWith(".json"));
  const list = files.map(entry);
  write(join(NEXT_SITE, "circuits", "index.json"), `${JSON.stringify(list, null, 1)}\n`);
}
