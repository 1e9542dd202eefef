// `npm run serve`: serve the built site. Options: --port N, --dir FOLDER, --log (requests as JSON).
import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { parseArgs } from "node:util";
import { SITE } from "./paths.mjs";
import { startServer } from "./serve/server.mjs";
import { command, isMain, Stop, say } from "./setup/say.mjs";

const FIRST_PORT = 8000;
const LAST_PORT = 8020;

const log = (/** @type {object} */ line) => console.log(JSON.stringify(line));

/** @param {string} folder @param {boolean} [logs] */
async function onFreePort(folder, logs) {
  for (let port = FIRST_PORT; port <= LAST_PORT; port++) {
    const address = await startServer(folder, port, logs ? log : undefined).catch(portTaken);
    if (address) return address;
  }
  throw new Stop(`The ports ${FIRST_PORT} to ${LAST_PORT} are all taken; choose one with --port.`);
}

function portTaken(/** @type {NodeJS.ErrnoException} */ error) {
  if (error.code !== "EADDRINUSE") throw error;
}

/** @param {{ port?: string, dir?: string, log?: boolean }} [options] */
export async function serve({ port, dir, log: logs } = {}) {
  const folder = resolve(dir ?? SITE);
  if (!existsSync(join(folder, "index.html"))) {
    throw new Stop(`There is no site in ${folder}. Run: npm run build`);
  }
  const address = port
    ? await startServer(folder, Number(port), logs ? log : undefined)
    : await onFreePort(folder, logs);
  say(`Footwell is at ${address}`);
}

if (isMain(import.meta.url)) {
  const { values } = parseArgs({
    options: { port: { type: "string" }, dir: { type: "string" }, log: { type: "boolean" } },
  });
  await command(() => serve(values));
}
