// What the commands say to the person at the terminal.

import { pathToFileURL } from "node:url";

/** A reason to stop that a person can act on; shown without a stack. */
export class Stop extends Error {}

/** @param {string} sentence */
export const say = (sentence) => console.log(sentence);

/**
 * Run a command's main function; a Stop ends it with its sentence alone.
 * @param {() => Promise<unknown>} main
 */
export async function command(main) {
  try {
    await main();
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    console.error(`\n${error.message}`);
    process.exit(1);
  }
}

/** Whether a module is the program that node was started with. @param {string} moduleUrl */
export const isMain = (moduleUrl) => moduleUrl === pathToFileURL(process.argv[1] ?? "").href;
