// What was found in the ways of a plug: a wire sits in one way, and what is said of the others stays.
import assert from "node:assert/strict";
import { test } from "node:test";
import { bridges, loose, withWire } from "../../web/src/features/wiring/state";

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

test("a wire that bridges two ways of a half stays in the one when it is laid into the other", () => {
  const ways = [{ should: "W3+W7" }, { should: "W7" }, { should: null }];
  const swapped = withWire({ 1: "W7" }, "2", "W3+W7", false, bridges({ ways }));
  assert.deepEqual(swapped, { 1: "W7", 2: "W3+W7" });
  assert.deepEqual(withWire(swapped, "1", "W3", false, bridges({ ways })), { 1: "W3", 2: "W7" });
});

test("of wires crimped together only the one that was found nowhere is loose", () => {
  const wires = ["W3+W4", "W5", "W3", "W4"].map((id) => ({ id, colour: "", name: "" }));
  assert.deepEqual(loose({ wires }, { 1: "W3", 2: "W5" }), ["W4"]);
  assert.deepEqual(loose({ wires }, { 1: "W5", 2: "W4+W3" }), []);
});
