// A job that is erased while Python still works on it: nothing of it is kept beside the store afterwards.
import "./stage";
import assert from "node:assert/strict";
import { test } from "node:test";
import { render } from "preact";
import { openJob } from "../../web/src/app/job";
import { go, route } from "../../web/src/app/route";
import { kept, openBuilt, type Step } from "../../web/src/features/builder/state";
import { EraseScreen } from "../../web/src/features/erase/EraseScreen";
import { newId } from "../../web/src/storage";
import { forgetKept } from "../../web/src/storage/exports";
import { connected, note } from "./fake_ports";
import { Stage, setUp } from "./stage";

const TITLE = "zebra-7741";
const VIEW = { title: TITLE, controls: [], diagram: { places: [] } };
const aMoment = () => new Promise((next) => setTimeout(next, 5));

/** A job that is open on this page, with Python at work on it. */
async function atWork() {
  const kept = new Map<string, string>();
  const page = { loadedAgain: false };
  setUp({
    localStorage: {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => kept.set(key, text),
      removeItem: (key: string) => kept.delete(key),
    },
    location: { pathname: "/", search: "", hash: "", reload: () => (page.loadedAgain = true) },
  });
  const job = newId();
  let events = [note(1)];
  const eraseJob = async () => {
    events = [];
    kept.clear();
  };
  let answer = (_view: object) => {};
  const look = () => new Promise((resolve) => (answer = resolve));
  const jobs = async () => [{ id: job, title: TITLE, vehicle: "", count: 1, lastAt: "" }];
  const unexported = async () => new Map();
  connected({ look }, { events: async () => events, eraseJob, jobs, unexported });
  go({ screen: "job", job, show: "work" });
  void openJob(job);
  await aMoment();
  const workEnds = async () => {
    answer(VIEW);
    await aMoment();
  };
  return { eraseJob, workEnds, page, left: () => JSON.stringify([...kept]) };
}

test("the view of a job that stands is kept for the next start", async () => {
  const { workEnds, left } = await atWork();
  await workEnds();
  assert.match(left(), /zebra/);
});

test("a job erased in another tab leaves no view behind when the work on it ends", async () => {
  const { eraseJob, workEnds, left } = await atWork();
  await eraseJob();
  await workEnds();
  assert.doesNotMatch(left(), /zebra/);
});

test("a job erased on this page leaves no view behind, though the page is loaded again meanwhile", async () => {
  const { workEnds, page } = await atWork();
  go({ screen: "erase" });
  const screen = new Stage(render, <EraseScreen />);
  await screen.press(TITLE);
  await screen.press("Erase this job");
  await aMoment();
  assert.ok(page.loadedAgain);
  const written: string[] = [];
  Object.assign(localStorage, { setItem: (_: string, text: string) => written.push(text) });
  await workEnds();
  assert.doesNotMatch(written.join(), /zebra/);
  screen.leave();
});

test("the steps of a circuit go with the job that was opened on it, and stay where more was built since", async () => {
  const methods = {
    getItem(key: string) {
      return (this as Record<string, unknown>)[key] ?? null;
    },
    setItem(key: string, text: string) {
      Object.assign(this, { [key]: text });
    },
    removeItem(key: string) {
      Reflect.deleteProperty(this, key);
    },
  };
  setUp({ localStorage: Object.create(methods) });
  connected({}, { append: async () => note(1) });
  const step = { do: "put", what: TITLE } as unknown as Step;
  const stays = async (goOn: boolean) => {
    kept.set({ volts: 12, steps: [step] });
    const job = await openBuilt(TITLE, {});
    if (goOn) kept.set({ volts: 12, steps: [step, step] });
    forgetKept(job);
    return JSON.stringify({ ...localStorage }).includes(TITLE);
  };
  assert.deepEqual([await stays(false), await stays(true)], [false, true]);
});

test("the way back to a job that was erased leads to the list of jobs", async () => {
  setUp();
  connected({}, { events: async () => [] });
  const job = newId();
  go({ screen: "job", job, show: "pad" });
  await openJob(job);
  assert.deepEqual(route.value, { screen: "jobs" });
});
