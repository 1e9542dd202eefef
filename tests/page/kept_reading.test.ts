// A reading or a photo belongs to the job that was open when its key was pressed, however long it takes.

import "./stage";
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { jobId, openJob, recordChange } from "../../web/src/app/job";
import { go, route } from "../../web/src/app/route";
import type { Check } from "../../web/src/app/types";
import { choose, chosen } from "../../web/src/features/check/state";
import { keepTyped } from "../../web/src/features/pad/keep";
import { openPad, typing } from "../../web/src/features/pad/state";
import { verdict } from "../../web/src/features/verdict/state";
import { newId } from "../../web/src/storage";
import { connected, note } from "./fake_ports";
import { setUp } from "./stage";

const CHECK = { id: "v", do: "Measure", units: ["V"], record: {}, healthy_choice: "" };
const WEIGHED = { ask: "", refuse: "", verdict: "as expected", record: { value: 12 } };
const VIEW = { title: "Fan", controls: [], diagram: { places: [] } };

interface Wanted {
  job: string;
  kind: string;
}

/** A phone with two jobs, the first open; Python answers when it is told to. */
async function twoJobs() {
  const stored: Wanted[] = [];
  let answer = (_told: object) => {};
  const late = () => new Promise((resolve) => (answer = resolve));
  const appendMany = async (wanted: Wanted[]) => {
    stored.push(...wanted);
    return wanted.map((it, n) => ({ ...note(n + 2), ...it }));
  };
  const events = async () => [note(1)];
  connected({ look: () => VIEW, weigh: late, entry_try: late }, { events, appendMany });
  const jobs = [newId(), newId()];
  const open = async (job = "") => {
    go({ screen: "job", job, show: "work" });
    await openJob(job);
  };
  await open(jobs[0]);
  return { jobs, stored, open: () => open(jobs[1]), answer: (told: object) => answer(told) };
}

function typed() {
  openPad(CHECK as unknown as Check);
  const now = typing.value.value;
  assert.ok(now);
  return { ...now, typed: "12" };
}

beforeEach(() => {
  setUp();
  typing.clear();
  verdict.clear();
});

test("a reading is kept in the job that is open, with its verdict", async () => {
  const { jobs, stored, answer } = await twoJobs();
  const keeping = keepTyped(typed(), false);
  answer(WEIGHED);
  await keeping;
  assert.deepEqual(
    stored.map(({ job }) => job),
    [jobs[0]],
  );
  assert.equal(verdict.value?.said, "as expected");
  assert.equal(typing.value.value, null);
});

test("a reading that is weighed while another job is opened goes into its own", async () => {
  const { jobs, stored, open, answer } = await twoJobs();
  const keeping = keepTyped(typed(), false);
  await open();
  const begun = { ...typed(), typed: "3" };
  typing.set(begun);
  answer(WEIGHED);
  await keeping;
  assert.deepEqual(
    stored.map(({ job }) => job),
    [jobs[0]],
  );
  assert.equal(verdict.value, null);
  assert.deepEqual(typing.value.value, begun);
  assert.deepEqual(
    [jobId.value, route.value],
    [jobs[1], { screen: "job", job: jobs[1], show: "pad" }],
  );
});

test("a reading that is weighed while the list of jobs is opened is not lost, nor asked for again", async () => {
  const { jobs, stored, answer } = await twoJobs();
  choose(CHECK as unknown as Check);
  const keeping = keepTyped(typed(), false);
  go({ screen: "jobs" });
  answer(WEIGHED);
  await keeping;
  assert.deepEqual(
    stored.map(({ job }) => job),
    [jobs[0]],
  );
  assert.equal(route.value.screen, "jobs");
  go({ screen: "job", job: jobs[0] ?? "", show: "work" });
  assert.deepEqual([chosen.value, typing.value.value], [null, null]);
});

test("a change of the sheet that is tried while another job is opened goes into its own", async () => {
  const { jobs, stored, open, answer } = await twoJobs();
  const changing = recordChange({ kind: "sheet edited", body: { changes: [] } });
  await open();
  answer({});
  await changing;
  assert.deepEqual(
    stored.map(({ job }) => job),
    [jobs[0]],
  );
});
