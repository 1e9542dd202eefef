// What the test run says at its end.
import { existsSync, readFileSync } from "node:fs";

/** @typedef {{ passed: number, failed: number, skipped: number }} Counts */
/** @typedef {Counts & { name: string, minutes: number }} Outcome */

/** @param {Outcome[]} outcomes */
export function minutesTable(outcomes) {
  const lines = outcomes.map(
    ({ name, minutes, passed, failed, skipped }) =>
      `${name.padEnd(14)} ${minutes.toFixed(1).padStart(6)} ${pad(passed)} ${pad(failed)} ${pad(skipped)}`,
  );
  const head = `${"part".padEnd(14)} minutes  passed  failed skipped`;
  return `\n${[head, ...lines].join("\n")}\n`;
}

/** @param {number} count */
const pad = (count) => String(count).padStart(7);

/** @param {Outcome[]} outcomes */
export function closing(outcomes) {
  const sum = (/** @type {keyof Counts} */ key) => outcomes.reduce((all, one) => all + one[key], 0);
  const [passed, failed, skipped] = [sum("passed"), sum("failed"), sum("skipped")];
  const tail = skipped > 0 ? `, ${skipped} skipped` : "";
  // A run without a single test has proven nothing.
  return { line: `${passed} passed, ${failed} failed${tail}`, failed: failed > 0 || passed === 0 };
}

/**
 * Counts of a report in the JUnit form. A run that stopped before its end counts as one failure.
 * @param {string} path
 * @param {number} exitCode
 * @returns {Counts}
 */
export function countsOf(path, exitCode) {
  const text = existsSync(path) ? readFileSync(path, "utf8") : "";
  const cases = [...text.matchAll(/<testcase\b[^>]*?(?:\/>|>([\s\S]*?)<\/testcase>)/g)];
  const bodies = cases.map(([, body]) => body ?? "");
  const skipped = bodies.filter((body) => body.includes("<skipped")).length;
  const failed = bodies.filter((body) => /<(failure|error)\b/.test(body)).length;
  const passed = bodies.length - skipped - failed;
  return { passed, skipped, failed: failed === 0 && exitCode !== 0 ? 1 : failed };
}
