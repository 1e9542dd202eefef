// A job from a link: shown first, with what did not come along; taken over only when the person says so.
import "./stage";
import assert from "node:assert/strict";
import { afterEach, test } from "node:test";
import { render } from "preact";
import { route } from "../../web/src/app/route";
import { OpenLinkScreen } from "../../web/src/features/openlink/OpenLinkScreen";
import { link } from "../../web/src/features/openlink/state";
import { words } from "../../web/src/features/openlink/words";
import { type Answers, connected, note } from "./fake_ports";
import { Stage, setUp } from "./stage";

const JOB = { title: "Fan", vehicle: "saloon", readings: 2, events: [note(1)], more_inside: false };
const photo = (n: number) =>
  note(n, { connector: "X2", half: "a", sha256: "b".repeat(64) }, "connector photographed");

let stage: Stage | undefined;

function opened(
  answers: Answers,
  store: Record<string, unknown> = {},
  text: string | null = "F1.link",
) {
  setUp();
  link.value = text;
  const ports = connected(answers, store);
  stage = new Stage(render, <OpenLinkScreen />);
  return { stage, ...ports };
}

afterEach(() => stage?.leave());

test("what is inside is shown before it is taken over, and readings are counted", async () => {
  for (const [readings, said] of [
    [0, "0 readings"],
    [1, "1 reading"],
    [2, "2 readings"],
  ] as const) {
    const { stage } = opened({ link_open: () => ({ ...JOB, readings }) });
    assert.equal(await stage.says(/^\d+ reading/), said);
    assert.ok(stage.lines.includes("saloon"));
    assert.ok(!stage.lines.some((line) => /photo|newer/.test(line)));
    stage.leave();
  }
});

test("photos that did not come along are counted, with the way to them", async () => {
  for (const [events, said] of [
    [[photo(1)], "The photo of this job did not come"],
    [[photo(1), photo(2)], "The 2 photos of this job did not come"],
  ] as const) {
    const { stage } = opened({ link_open: () => ({ ...JOB, events }) });
    const line = await stage.says("did not come with the link");
    assert.ok(line.startsWith(said), line);
    assert.match(line, /For photos ask for the job as a file\.$/);
    stage.leave();
  }
});

test("something of a newer release is told before it would be left out", async () => {
  const { stage } = opened({ link_open: () => ({ ...JOB, more_inside: true }) });
  await stage.says("comes from a newer Footwell");
});

test("a link that cannot be opened says why, and nothing can be taken over", async () => {
  const link_open = () => {
    throw new Error("This link is cut off.");
  };
  const { stage } = opened({ link_open });
  await stage.says("This link is cut off.");
  assert.ok(stage.lines.includes(words.failed));
  assert.equal(stage.key(words.take), undefined);
});

test("an answer to a link that another has replaced is not shown", async () => {
  const answers = new Map<string, (job: unknown) => void>();
  const link_open = ({ text }: { text: string }) =>
    new Promise((done) => {
      answers.set(text, done);
    });
  const { stage } = opened({ link_open }, {}, "F1.old");
  await stage.says(words.reading);
  while (!answers.has("F1.old")) await new Promise((next) => setTimeout(next, 5));
  link.value = "F1.new";
  while (!answers.has("F1.new")) await new Promise((next) => setTimeout(next, 5));
  answers.get("F1.new")?.({ ...JOB, title: "the new one" });
  answers.get("F1.old")?.({ ...JOB, title: "the old one" });
  await stage.says("the new one");
  assert.ok(!stage.lines.includes("the old one"));
});

test("the job is stored under a new name, and the link is gone", async () => {
  const adopted: unknown[] = [];
  const adopt = async (...given: unknown[]) => {
    adopted.push(given);
    return JOB.events;
  };
  const { stage } = opened({ link_open: () => JOB }, { adopt });
  await stage.press(words.take);
  const now = route.value;
  assert.ok(now.screen === "job" && now.job !== "j");
  assert.deepEqual(adopted, [[JOB.events, now.job]]);
  assert.equal(link.value, null);
});

test("a job that found no room is told, and the link waits on", async () => {
  const adopt = async () => {
    throw new Error("Not saved: this phone has no room left.");
  };
  const { stage } = opened({ link_open: () => JOB }, { adopt });
  await stage.press(words.take);
  await stage.says("no room left");
  assert.equal(link.value, "F1.link");
  await stage.press(words.leave);
  assert.deepEqual([route.value, link.value], [{ screen: "jobs" }, null]);
});

test("a link that was opened or left already says so where the browser's way back leads to it", async () => {
  const { stage } = opened({}, {}, null);
  await stage.says("already opened or left");
  await stage.press(words.leave);
  assert.equal(route.value.screen, "jobs");
});
