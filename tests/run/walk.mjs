// `npm run walk`: walk through the app as a new user would, count touches, and print them.

import { build } from "../../web/build/build.mjs";
import { filesBelow } from "../../web/build/files.mjs";
import { fromRoot, VENV_PYTHON } from "../../web/build/paths.mjs";
import { ensurePrograms } from "../../web/build/setup/debian.mjs";
import { ensureTestPackages } from "../../web/build/setup/python.mjs";
import { openly } from "../../web/build/setup/run.mjs";
import { command, Stop } from "../../web/build/setup/say.mjs";

const FOLDER = fromRoot("tests", "walk");
const HELPERS = [fromRoot("tests", "browser"), fromRoot("tests", "bench"), FOLDER].join(":");

await command(async () => {
  ensurePrograms(["chromium"], "for the walks");
  await build();
  ensureTestPackages();
  const env = { ...process.env, PYTHONPATH: HELPERS, PYTHONUNBUFFERED: "1" };
  const failed = [];
  for (const script of filesBelow(FOLDER, (path) => path.endsWith("_walk.py")))
    if ((await openly(VENV_PYTHON, [`${FOLDER}/${script}`], env)) !== 0) failed.push(script);
  if (failed.length > 0) throw new Stop(`Not finished: ${failed.join(", ")}`);
  process.exit(0);
});
