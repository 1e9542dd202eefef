// What came to nothing stays told until the person tries again: work in the background takes no sentence away.
import "./stage";
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { look, openJob, record, trouble } from "../../web/src/app/job";
import { go } from "../../web/src/app/route";
import { newId } from "../../web/src/storage";
import { connected, note } from "./fake_ports";
import { setUp } from "./stage";

const VIEW = { title: "Fan", controls: [], diagram: { places: [] } };
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
  connected({ look: asked }, { events: async () => [note(1)], appendMany });
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
