// Looking for a circuit by what is typed, and a library that cannot be read.
import "./stage";
import assert from "node:assert/strict";
import { test } from "node:test";
import type { Circuit } from "../../web/src/app/types";
import { isMeant, sheetOf } from "../../web/src/features/newjob/library";

const FAN = { title: "Lüfter im Fond", vehicle: "Minibus", summary: "Drei Stufen, ein Café." };

test("a search finds a word however its accents were typed, capitals or not", () => {
  for (const typed of ["lüfter", "lu\u0308fter", "CAFE\u0301 mini", ""])
    assert.ok(isMeant(FAN, typed), typed);
  const apart = { ...FAN, title: "Lu\u0308fter" };
  assert.ok(isMeant(apart, "lüfter"));
});

test("a search for another word, or for one letter without its accent, finds nothing", () => {
  for (const typed of ["lufter", "lüfter wischer", "cafes"]) assert.ok(!isMeant(FAN, typed), typed);
});

test("a sheet that the host does not give, or that no network brings, is told with what to do", async () => {
  for (const answer of [
    async () => new Response("", { status: 404 }),
    () => Promise.reject(new TypeError("Failed to fetch")),
  ]) {
    Object.assign(globalThis, { fetch: answer });
    await assert.rejects(sheetOf({ file: "x.json" } as Circuit), {
      message: "This circuit could not be read. With the network on, try again.",
    });
  }
});
