// A page that starts in the midst of a job: what stands before the store has opened stays under the thumb.
import "./stage";
import assert from "node:assert/strict";
import { test } from "node:test";
import { signal } from "@preact/signals";
import { render } from "preact";
import { App } from "../../web/src/app/App";
import { go } from "../../web/src/app/route";
import { verdict } from "../../web/src/features/verdict/state";
import { newId, type StoreState } from "../../web/src/storage";
import { connected, note } from "./fake_ports";
import { Stage, setUp } from "./stage";

const SAYS = "Working out what to measure…";
const aMoment = () => new Promise((next) => setTimeout(next, 5));

/** The keys and sentences of every moment while the store of a job opens and Python is still at work. */
async function linesWhileOpening(job: string): Promise<string[][]> {
  const state = signal<StoreState>("opening");
  const look = () => new Promise(() => {});
  connected({ look }, { state, events: async () => [{ ...note(1), job }] });
  go({ screen: "job", job, show: "work" });
  const screen = new Stage(render, <App />);
  const moments = [screen.lines];
  state.value = "ready";
  for (let turn = 0; turn < 5; turn++) {
    await Promise.resolve();
    moments.push(screen.lines);
  }
  await aMoment();
  moments.push(screen.lines);
  screen.leave();
  return moments;
}

test("a job whose store is opening is being worked out from the first moment, and nothing has stopped", async () => {
  setUp();
  const moments = await linesWhileOpening(newId());
  for (const lines of moments)
    assert.ok(lines.includes(SAYS), `${moments.indexOf(lines)} ${lines.join(" | ")}`);
});

test("the way on from a reading stands only once it leads on", async () => {
  setUp();
  const job = newId();
  const said = "inside the band";
  verdict.set({ job, text: "12.4 V", said, fits: true, expected: "", where: "Probe way 1." });
  const moments = await linesWhileOpening(job);
  for (const lines of moments) {
    assert.ok(lines.includes(said), lines.join(" | "));
    assert.ok(lines.includes(SAYS) && !lines.includes("Next"), lines.join(" | "));
  }
  verdict.clear();
});
