// `npm test`: install what is missing, build, run every part. `npm test -- core tsc` runs some only.
import { build } from "../../web/build/build.mjs";
import { ensurePrograms } from "../../web/build/setup/debian.mjs";
import { ensureTestPackages } from "../../web/build/setup/python.mjs";
import { command, Stop, say } from "../../web/build/setup/say.mjs";
import { allParts } from "./parts.mjs";
import { closing, minutesTable } from "./report.mjs";

/** @typedef {import("./parts.mjs").Part} Part */
/** @typedef {import("./report.mjs").Outcome} Outcome */

async function prepare() {
  ensurePrograms(["chromium", "ngspice"], "for the tests");
  await build();
  ensureTestPackages();
}

/** @param {string[]} names @returns {Part[]} */
function chosen(names) {
  const parts = allParts();
  const known = parts.map((part) => part.name);
  const unknown = names.filter((name) => !known.includes(name));
  if (unknown.length > 0)
    throw new Stop(`There is no part ${unknown.join(", ")}. There are: ${known.join(", ")}`);
  return names.length === 0 ? parts : parts.filter((part) => names.includes(part.name));
}

/** @param {string} name @param {() => Promise<{ passed: number, failed: number, skipped: number }>} run */
async function timed(name, run) {
  say(`\n--- ${name}`);
  const start = performance.now();
  const counts = await run();
  return { name, ...counts, minutes: (performance.now() - start) / 60_000 };
}

async function runAll() {
  const parts = chosen(process.argv.slice(2));
  /** @type {Outcome[]} */
  const outcomes = [];
  const nothing = { passed: 0, failed: 0, skipped: 0 };
  outcomes.push(await timed("prepare", () => prepare().then(() => nothing)));
  for (const part of parts) {
    outcomes.push(await timed(part.name, part.run));
  }
  return outcomes;
}

await command(async () => {
  const outcomes = await runAll();
  say(minutesTable(outcomes));
  const { line, failed } = closing(outcomes);
  say(line);
  // The interpreter of the build would keep the process alive.
  process.exit(failed ? 1 : 0);
});
