// `npm run torture`: what storage, offline and links withstand, row by row, with a sample of the counts.
// `npm run torture -- long` takes the counts of the floors, `-- goal` those of the goals, where
// FOOTWELL_MINUTES bounds what is repeated; `npm run torture -- R1 C1` runs some rows.

import { build } from "../../web/build/build.mjs";
import { fromRoot, VENV_PYTHON } from "../../web/build/paths.mjs";
import { ensurePrograms } from "../../web/build/setup/debian.mjs";
import { ensureTestPackages, pip } from "../../web/build/setup/python.mjs";
import { openly } from "../../web/build/setup/run.mjs";
import { command, Stop } from "../../web/build/setup/say.mjs";

// `-- firefox` runs the rows of Firefox, `-- mutants` counts mutants; both bring a tool of their own.

/** @type {Record<string, string>} */
const TOOLS = { firefox: "websockets==17.4", mutants: "mutmut==3.8.1" };

await command(async () => {
  const words = process.argv.slice(2);
  const firefox = words.includes("firefox") ? ["firefox-esr"] : [];
  ensurePrograms(["chromium", "strace", ...firefox], "for the torture");
  await build();
  ensureTestPackages();
  for (const word of words) {
    const tool = TOOLS[word];
    if (tool) pip(["install", "-q", tool], `${tool} could not be installed.`);
  }
  const script = fromRoot("tests", "torture", "torture.py");
  const counts = words.includes("goal") ? "goal" : words.includes("long") ? "1" : "";
  const paths = [fromRoot("tests"), fromRoot("tests", "browser")].join(":");
  const env = {
    ...process.env,
    PYTHONUNBUFFERED: "1",
    PYTHONPATH: paths,
    FOOTWELL_LONG: counts,
  };
  const code = await openly(VENV_PYTHON, [script, ...process.argv.slice(2)], env);
  if (code !== 0) throw new Stop("A row is below its floor, or could not be measured.");
  process.exit(0);
});
