// The rules of left_out.txt.
import { readFileSync } from "node:fs";

/** @returns {string[]} */
export function leftOut() {
  const lines = readFileSync(new URL("left_out.txt", import.meta.url), "utf8").split("\n");
  return lines.filter((line) => line && !line.startsWith("#"));
}
