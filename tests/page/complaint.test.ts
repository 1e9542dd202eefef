// Ready answers of the first screen: none of them twice in other words.
import "./stage";
import assert from "node:assert/strict";
import { test } from "node:test";
import type { JobView } from "../../web/src/app/types";
import { prepareWhile } from "../../web/src/features/complaint/ahead";
import { isDeadSaid, type ReadyAnswer } from "../../web/src/features/complaint/state";
import { connected } from "./fake_ports";

const answer = (loads: string[], engine: ReadyAnswer["engine"] = "off"): ReadyAnswer => ({
  words: "Dark",
  engine,
  states: loads.map((load) => ({ controls: { S1: "on" }, load, state: "dark" })),
});

const asked = (...complaints: ReadyAnswer[]) =>
  ({
    asked_positions: [{ S1: "on" }],
    loads: ["L1", "L2"].map((id) => ({ id, dead: "dark", dead_words: "Dark in every position" })),
    complaints,
  }) as unknown as JobView;

test("a ready answer by which everything is dark stands in place of the one that all sheets have", () => {
  assert.equal(isDeadSaid(asked(answer(["L1"]), answer(["L1", "L2"]))), true);
});

test("one lamp dark, or all of them with the engine running, says something else", () => {
  assert.equal(isDeadSaid(asked(answer(["L1"]))), false);
  assert.equal(isDeadSaid(asked(answer(["L1", "L2"], "on"))), false);
  assert.equal(isDeadSaid(asked()), false);
});

/** The pieces that are asked of a core with five of them, as long as some are wanted. */
async function pieces(wanted: number): Promise<number[]> {
  const asked: number[] = [];
  connected({
    prepare: ({ done = 0 }) => {
      asked.push(done);
      return { done: done + 1, left: 4 - done };
    },
  });
  await prepareWhile(() => asked.length < wanted);
  return asked;
}

test("work ahead goes on piece by piece to its end, or until the story is told", async () => {
  assert.deepEqual(await pieces(99), [0, 1, 2, 3, 4]);
  assert.deepEqual(await pieces(2), [0, 1]);
});
