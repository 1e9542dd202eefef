// What came to nothing stays told until the person tries again: work in the background takes no sentence away.
import "./stage";
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { signal } from "@preact/signals";
import { render } from "preact";
import { look, openJob, record, trouble } from "../../web/src/app/job";
import { go } from "../../web/src/app/route";
import type { Check } from "../../web/src/app/types";
import { EraseScreen } from "../../web/src/features/erase/EraseScreen";
import { words } from "../../web/src/features/jobs/words";
import { PadScreen } from "../../web/src/features/pad/PadScreen";
import { openPad, press, typing } from "../../web/src/features/pad/state";
import { newId } from "../../web/src/storage";
import { connected, note } from "./fake_ports";
import { Stage, setUp } from "./stage";

const VIEW = { title: "Fan", controls: [], diagram: { places: [] } };
const WEIGHED = { ask: "", refuse: "", verdict: "", record: {} };
const NOTED = [{ kind: "note made", body: {} }] as unknown as Parameters<typeof record>[0];
const NOT_SAVED = "Not saved: the browser closed the store twice in a row.";

/** A job that is open while Python works on it; its store does what it is told to. */
async function atWork() {
  const store = { refuses: false };
  let end = (_fault?: Error) => {};
  const asked = () =>
    new Promise((resolve, reject) => {
      end = (fault) => (fault ? reject(fault) : resolve(VIEW));
    });
  const appendMany = async (wanted: object[]) => {
    if (store.refuses) throw new Error(NOT_SAVED);
    return wanted.map((it, n) => ({ ...note(n + 2), ...it }));
  };
  connected({ look: asked, weigh: () => WEIGHED }, { events: async () => [note(1)], appendMany });
  const job = newId();
  go({ screen: "job", job, show: "work" });
  void openJob(job);
  await aMoment();
  const ends = async (fault?: Error) => {
    end(fault);
    await aMoment();
  };
  return { store, ends };
}

const aMoment = () => new Promise((next) => setTimeout(next, 5));

beforeEach(() => setUp());

test("a save that came to nothing stays told when the work on what was saved before ends", async () => {
  const { store, ends } = await atWork();
  store.refuses = true;
  assert.equal(await record(NOTED), false);
  await ends();
  assert.equal(trouble.value, NOT_SAVED);
  void look("");
  await aMoment();
  await ends(new Error("No way."));
  assert.equal(trouble.value, NOT_SAVED);
});

test("what was told of work that failed goes when it is done", async () => {
  const { ends } = await atWork();
  await ends(new Error("No way."));
  assert.equal(trouble.value, "No way.");
  void look("");
  await aMoment();
  await ends();
  assert.equal(trouble.value, "");
});

test("a save that came to nothing is told no longer when the next one is safe", async () => {
  const { store, ends } = await atWork();
  await ends();
  store.refuses = true;
  await record(NOTED);
  store.refuses = false;
  assert.equal(await record(NOTED), true);
  assert.equal(trouble.value, "");
});

test("a reading that could not be saved is told so on the pad, where its number still stands", async () => {
  const { store, ends } = await atWork();
  await ends();
  openPad({ id: "v", do: "Measure", units: ["V"], record: {}, words: [] } as unknown as Check);
  press("7");
  store.refuses = true;
  const pad = new Stage(render, <PadScreen />);
  await pad.press("Keep");
  assert.equal(await pad.says("Not saved"), NOT_SAVED);
  assert.equal(typing.value.value?.typed, "7");
  pad.leave();
});

for (const [tooLarge, sentence] of [
  [false, words.photosLeftOut(2)],
  [true, words.tooLarge],
] as const)
  test(`a file that cannot hold all is told as long as the erasing is asked for: ${sentence}`, async () => {
    const revision = signal(0);
    let asked = 0;
    const file = { text: "", leftOut: 2, incomplete: new Set(), tooLarge };
    connected(
      {},
      {
        revision,
        jobs: async () => {
          asked += 1;
          await aMoment();
          return [{ id: "j", title: "Fan", vehicle: "", count: 1, lastAt: "" }];
        },
        unexported: async () => new Map([["j", 1]]),
        exported: async () => file,
        noteExported: async () => {
          revision.value += 1;
        },
      },
    );
    go({ screen: "erase" });
    const screen = new Stage(render, <EraseScreen />);
    await screen.press("Fan");
    await screen.press("Save as a file first");
    const before = asked;
    // What is noted as handed over has the list read again; one that is no copy is not noted.
    for (let turn = 0; turn < 200 && asked === before && !tooLarge; turn++) await aMoment();
    await aMoment();
    await screen.says(sentence);
    screen.leave();
  });
