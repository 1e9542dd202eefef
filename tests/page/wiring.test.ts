// What was found in the ways of a plug: a wire sits in one way, and what is said of the others stays.
import assert from "node:assert/strict";
import { test } from "node:test";
import { withWire } from "../../web/src/features/wiring/state";

test("a wire laid into a way is taken out of the way where it was said to be, and no other with it", () => {
  const found = { 1: "W2", 2: "W3+W4", 3: null };
  assert.deepEqual(withWire(found, "3", "W4", false), { 1: "W2", 2: "W3", 3: "W4" });
  assert.deepEqual(withWire(found, "3", "W2", false), { 2: "W3+W4", 3: "W2" });
});

test("two wires that belong together go from way to way together", () => {
  const found = { 1: "W2", 2: "W3+W4" };
  assert.deepEqual(withWire(found, "1", "W3+W4", false), { 1: "W3+W4" });
});

test("a wire beside another stays with it, and the same once more changes nothing", () => {
  const both = withWire({ 2: "W3" }, "2", "W4", true);
  assert.deepEqual(both, { 2: "W3+W4" });
  assert.deepEqual(withWire(both, "2", "W4", true), both);
});

test("wires that are on no sheet may have one colour in two ways", () => {
  assert.deepEqual(withWire({ 1: "spare GY" }, "2", "spare GY", false), {
    1: "spare GY",
    2: "spare GY",
  });
});
