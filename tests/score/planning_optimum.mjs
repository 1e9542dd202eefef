// The least expected minutes of planning problems, by trying every check in every state; knows nothing of
// the planner. Reads a list of problems as JSON, writes a list of numbers.
//
// A problem: shares[s], repairs[s] (numbers), outcomes[j][s], minutes[j], station[j], travel[a][b], start.

import { readFileSync } from "node:fs";

const MOST_BITS = 20;

/**
 * @typedef {{ shares: number[], repairs: number[], outcomes: number[][], minutes: number[],
 *   station: number[], travel: number[][], start: number }} Problem
 */

/** @template T @param {T | undefined} value @returns {T} */
function sure(value) {
  if (value === undefined) throw new Error("a problem is not complete");
  return value;
}

/** Sets of suspects as numbers, one for each outcome. @param {number[]} outcomes */
function partsOf(outcomes) {
  /** @type {number[]} */
  const parts = [];
  outcomes.forEach((outcome, s) => {
    parts[outcome] = (parts[outcome] ?? 0) + 2 ** s;
  });
  return parts.filter((part) => part > 0);
}

/** Sets of suspects with one repair, by suspect. @param {number[]} repairs */
const companions = (repairs) =>
  repairs.map((mine) => repairs.reduce((set, one, s) => (one === mine ? set + 2 ** s : set), 0));

/** All sets of up to 20 suspects, the smaller numbers first. @param {Problem} problem */
function byAllSets({ shares, repairs, outcomes, minutes, station, travel, start }) {
  const stations = travel.length;
  const sets = 2 ** shares.length;
  const checks = outcomes.map((row, j) => ({ parts: partsOf(row), there: sure(station[j]) }));
  const mates = companions(repairs);
  const weight = new Float64Array(sets);
  const least = new Float64Array(sets * stations);

  /** Weighted minutes after a check. @param {number} set @param {typeof checks[number]} check */
  function after(set, { parts, there }) {
    let sum = 0;
    for (const part of parts) {
      const left = part & set;
      if (left === set) return Number.POSITIVE_INFINITY;
      sum += sure(least[left * stations + there]);
    }
    return sum;
  }

  /** @param {number} set @param {number} here */
  function solve(set, here) {
    let best = Number.POSITIVE_INFINITY;
    for (let j = 0; j < checks.length; j++) {
      const check = sure(checks[j]);
      const cost = sure(minutes[j]) + sure(sure(travel[here])[check.there]);
      const sum = sure(weight[set]) * cost + after(set, check);
      if (sum < best) best = sum;
    }
    return best;
  }

  for (let set = 1; set < sets; set++) {
    const lowest = 31 - Math.clz32(set & -set);
    weight[set] = sure(weight[set & (set - 1)]) + sure(shares[lowest]);
    if ((set & ~sure(mates[lowest])) === 0) continue;
    for (let here = 0; here < stations; here++) least[set * stations + here] = solve(set, here);
  }
  return sure(least[(sets - 1) * stations + start]) / sure(weight[sets - 1]);
}

/** Only the sets that can come up, for any number of suspects at one station. @param {Problem} problem */
function byReachableSets({ shares, repairs, outcomes, minutes }) {
  const checks = outcomes.map((row) => partsOf(row).map(BigInt));
  /** @type {Map<bigint, number>} */
  const least = new Map();

  /** @param {bigint} set @param {bigint[]} parts */
  function after(set, parts) {
    let sum = 0;
    for (const part of parts) {
      if ((part & set) === set) return Number.POSITIVE_INFINITY;
      sum += solve(part & set);
    }
    return sum;
  }

  /** @param {bigint} set @returns {number} */
  function solve(set) {
    const before = least.get(set);
    if (before !== undefined) return before;
    const live = shares.flatMap((_, s) => ((set >> BigInt(s)) & 1n ? [s] : []));
    const known = new Set(live.map((s) => repairs[s])).size < 2;
    const weight = live.reduce((sum, s) => sum + sure(shares[s]), 0);
    const best = checks.map((parts, j) =>
      known ? 0 : weight * sure(minutes[j]) + after(set, parts),
    );
    least.set(set, Math.min(...best));
    return Math.min(...best);
  }
  const total = shares.reduce((sum, share) => sum + share, 0);
  return solve((1n << BigInt(shares.length)) - 1n) / total;
}

/** @type {Problem[]} */
const problems = JSON.parse(readFileSync(0, "utf8"));
const found = problems.map((problem) =>
  problem.shares.length <= MOST_BITS ? byAllSets(problem) : byReachableSets(problem),
);
process.stdout.write(JSON.stringify(found));
