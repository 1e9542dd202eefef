// Ready answers of the first screen: none of them twice in other words.
import "./stage";
import assert from "node:assert/strict";
import { test } from "node:test";
import type { JobView } from "../../web/src/app/types";
import { isDeadSaid, type ReadyAnswer } from "../../web/src/features/complaint/state";

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
