// The wheels for the browser's Python: fetched once, each checked against the committed hash.
import { existsSync } from "node:fs";
import { join } from "node:path";
import { sha256OfFile, write } from "../files.mjs";
import { CACHE } from "../paths.mjs";
import { ensureVenv, pip } from "../setup/python.mjs";
import { Stop, say } from "../setup/say.mjs";
import { pythonPins, wheelName, wheelVersion } from "./pins.mjs";

export const WHEELS = join(CACHE, "wheels");

/** @param {string} file @param {string} hash */
function isSound(file, hash) {
  const path = join(WHEELS, file);
  return existsSync(path) && sha256OfFile(path) === hash;
}

/** @param {Record<string, string>} wheels */
function writeRequirements(wheels) {
  const path = join(CACHE, "wheels.txt");
  const lines = Object.entries(wheels).map(([file, hash]) => {
    const name = wheelName(file);
    return `${name}==${wheelVersion(wheels, name)} --hash=sha256:${hash}`;
  });
  write(path, `${lines.join("\n")}\n`);
  return path;
}

function download() {
  const { python, abi, platform, wheels } = pythonPins();
  const target = [
    "--python-version",
    python,
    "--implementation",
    "cp",
    "--abi",
    abi,
    "--platform",
    platform,
  ];
  const args = [
    "download",
    "-q",
    "--only-binary=:all:",
    "--no-deps",
    "--require-hashes",
    ...target,
  ];
  pip(
    [...args, "-d", WHEELS, "-r", writeRequirements(wheels)],
    "The wheels for the browser's Python could not be fetched as pins.json names them; is there a network?",
  );
}

/** @returns {string[]} the file names of all wheels, now in WHEELS and checked */
export function ensureWheels() {
  const { wheels } = pythonPins();
  const missing = () => Object.entries(wheels).filter(([file, hash]) => !isSound(file, hash));
  if (missing().length > 0) {
    ensureVenv();
    say("Fetching the wheels for the browser's Python");
    download();
  }
  const wrong = missing().map(([file]) => file);
  if (wrong.length > 0)
    throw new Stop(`Not the files that pins.json expects: ${wrong.join(", ")}.`);
  return Object.keys(wheels);
}
