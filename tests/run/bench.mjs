// `npm run bench`: run every benchmark and print its tables. `npm run bench -- boot` runs one.

import { build } from "../../web/build/build.mjs";
import { filesBelow } from "../../web/build/files.mjs";
import { fromRoot, VENV_PYTHON } from "../../web/build/paths.mjs";
import { ensurePrograms } from "../../web/build/setup/debian.mjs";
import { ensureTestPackages } from "../../web/build/setup/python.mjs";
import { openly } from "../../web/build/setup/run.mjs";
import { command, Stop, say } from "../../web/build/setup/say.mjs";

const ENDING = "_bench.py";
const FOLDER = fromRoot("tests", "bench");

/** @param {string[]} names @returns {string[]} */
function chosen(names) {
  const all = filesBelow(FOLDER, (path) => path.endsWith(ENDING));
  const wanted = all.filter(
    (path) => names.length === 0 || names.includes(path.slice(0, -ENDING.length)),
  );
  if (wanted.length > 0) return wanted;
  const known = all.map((path) => path.slice(0, -ENDING.length));
  throw new Stop(`There is no such benchmark. There are: ${known.join(", ")}`);
}

/** @param {string} script */
async function run(script) {
  say(`\n=== ${script}`);
  const helpers = [fromRoot("tests", "browser"), FOLDER].join(":");
  const env = { ...process.env, PYTHONPATH: helpers, PYTHONUNBUFFERED: "1" };
  const code = await openly(VENV_PYTHON, [`${FOLDER}/${script}`], env);
  return code === 0 ? [] : [script];
}

await command(async () => {
  ensurePrograms(["chromium", "ngspice"], "for the benchmarks");
  await build();
  ensureTestPackages();
  const failed = [];
  for (const script of chosen(process.argv.slice(2))) failed.push(...(await run(script)));
  if (failed.length > 0) throw new Stop(`Not finished: ${failed.join(", ")}`);
  process.exit(0);
});
