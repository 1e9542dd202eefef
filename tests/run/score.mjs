// `npm run score`: measure the diagnosis and print its tables. `npm run score -- planning` runs one.

import { filesBelow } from "../../web/build/files.mjs";
import { fromRoot, VENV_PYTHON } from "../../web/build/paths.mjs";
import { ensureTestPackages } from "../../web/build/setup/python.mjs";
import { openly } from "../../web/build/setup/run.mjs";
import { command, Stop, say } from "../../web/build/setup/say.mjs";

const ENDING = "_score.py";
const FOLDER = fromRoot("tests", "score");

/** @param {string[]} names @returns {string[]} */
function chosen(names) {
  const all = filesBelow(FOLDER, (path) => path.endsWith(ENDING)).sort();
  const wanted = all.filter(
    (path) => names.length === 0 || names.includes(path.slice(0, -ENDING.length)),
  );
  if (wanted.length > 0) return wanted;
  const known = all.map((path) => path.slice(0, -ENDING.length));
  throw new Stop(`There is no such score. There are: ${known.join(", ")}`);
}

/** @param {string} script @param {string[]} options */
async function run(script, options) {
  say(`\n=== ${script}`);
  const helpers = [FOLDER, fromRoot("tests", "bench")].join(":");
  const env = { ...process.env, PYTHONPATH: helpers, PYTHONUNBUFFERED: "1" };
  const start = performance.now();
  const code = await openly(VENV_PYTHON, [`${FOLDER}/${script}`, ...options], env);
  say(`${script}: ${((performance.now() - start) / 60_000).toFixed(1)} minutes`);
  return code === 0 ? [] : [script];
}

/** Names come first; what follows the first word with a dash goes to the scripts. */
function asked() {
  const words = process.argv.slice(2);
  const end = words.findIndex((word) => word.startsWith("-"));
  return end < 0
    ? { names: words, options: [] }
    : { names: words.slice(0, end), options: words.slice(end) };
}

await command(async () => {
  ensureTestPackages();
  const { names, options } = asked();
  const failed = [];
  for (const script of chosen(names)) failed.push(...(await run(script, options)));
  if (failed.length > 0) throw new Stop(`Not finished: ${failed.join(", ")}`);
  process.exit(0);
});
