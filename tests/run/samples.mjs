// `npm run samples`: write the samples of stored and shared formats that are not there yet.

import { build } from "../../web/build/build.mjs";
import { VENV_PYTHON } from "../../web/build/paths.mjs";
import { ensurePrograms } from "../../web/build/setup/debian.mjs";
import { ensureTestPackages } from "../../web/build/setup/python.mjs";
import { openly } from "../../web/build/setup/run.mjs";
import { command, Stop } from "../../web/build/setup/say.mjs";

const MAKERS = [["-m", "tests.core.stored_samples_maker"], ["tests/browser/phone_sample_maker.py"]];

await command(async () => {
  ensurePrograms(["chromium"], "for the samples");
  await build();
  ensureTestPackages();
  for (const maker of MAKERS)
    if ((await openly(VENV_PYTHON, maker)) !== 0) throw new Stop("Not all samples could be made.");
  process.exit(0);
});
