// How a position of all controls is named: the one that matters is not lost among those that are off.
import "./stage";
import assert from "node:assert/strict";
import { test } from "node:test";
import { nameOf } from "../../web/src/features/positions/state";

const switches = (count: number) =>
  Array.from({ length: count }, (_, n) => ({
    id: `S${n}`,
    name: `switch ${n}`,
    positions: ["off", "on"].map((id) => ({ id, name: id })),
  }));

const at = (count: number, ...on: number[]) =>
  Object.fromEntries(switches(count).map(({ id }, n) => [id, on.includes(n) ? "on" : "off"]));

test("three or more that are off are told together, and all of them in two words", () => {
  assert.equal(nameOf(at(4, 2), switches(4)), "switch 2 on · everything else off");
  assert.equal(nameOf(at(4), switches(4)), "everything off");
});

test("of fewer each is named, and so is every one that is on", () => {
  assert.equal(nameOf(at(3, 2), switches(3)), "switch 0 off · switch 1 off · switch 2 on");
  assert.equal(nameOf(at(5, 0, 1), switches(5)), "switch 0 on · switch 1 on · everything else off");
});
