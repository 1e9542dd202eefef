// Makes the whole site in a new folder, then puts it in the place of the old one.
import { renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { buildServiceWorker } from "../../../service_worker/build.mjs";
import { write } from "../files.mjs";
import { NEXT_SITE, SITE } from "../paths.mjs";
import { pyodideInfo } from "../python/pins.mjs";
import { copyCircuits } from "./circuits.mjs";
import { writeNotices } from "./notices.mjs";
import { copyPublic, writePage } from "./page.mjs";
import { BUILD_NOTE, copyPython } from "./python_files.mjs";
import { buildPage, buildScript } from "./scripts.mjs";

const SERVICE_WORKER = "service_worker.js";

/**
 * @param {import("../../src/worker/protocol").PythonFiles} python
 * @param {string} circuits path of the list of circuits
 */
async function buildScripts(python, circuits) {
  const [worker, imageWorker] = await Promise.all(
    ["worker", "image_worker"].map((name) =>
      buildScript(`web/src/worker/${name}.ts`, { PYTHON_FILES: python }),
    ),
  );
  const scripts = [worker, imageWorker, SERVICE_WORKER];
  const values = {
    WORKER_FILE: worker,
    IMAGE_WORKER_FILE: imageWorker,
    SERVICE_WORKER_FILE: SERVICE_WORKER,
    SCRIPT_FILES: scripts,
    CIRCUITS_FILE: circuits,
  };
  writePage(await buildPage(values));
  write(join(NEXT_SITE, BUILD_NOTE), JSON.stringify({ python, worker, imageWorker, circuits }));
}

/**
 * @param {Awaited<ReturnType<typeof import("../python/base.mjs").ensureBase>>} base
 * @param {{ zip: string, wheel: string }} bundle
 */
export async function makeSite(base, bundle) {
  rmSync(NEXT_SITE, { recursive: true, force: true });
  await buildScripts(copyPython(base, bundle), copyCircuits());
  copyPublic();
  writeNotices(base.notices, pyodideInfo().python);
  await buildServiceWorker(NEXT_SITE, SERVICE_WORKER);
  rmSync(SITE, { recursive: true, force: true });
  renameSync(NEXT_SITE, SITE);
}
