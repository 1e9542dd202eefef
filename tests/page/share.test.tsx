// Sharing a job: the link, what it leaves out, and the file where a link will not do.
import "./stage";
import assert from "node:assert/strict";
import { afterEach, test } from "node:test";
import { render } from "preact";
import { ShareScreen } from "../../web/src/features/share/ShareScreen";
import { words } from "../../web/src/features/share/words";
import { type Answers, jobOpen, note } from "./fake_ports";
import { handed, Stage, setUp } from "./stage";

const LINK = { text: "F1.4.abc.wxyz", length: 14, too_long: false };
const ADDRESS = "https://phone.test/app/#F1.4.abc.wxyz";
const PHOTO = { connector: "X2", half: "a", sha256: "a".repeat(64) };
const photo = (n: number) => note(n, PHOTO, "connector photographed");

let stage: Stage | undefined;

interface Given {
  events?: ReturnType<typeof note>[];
  calls?: Answers;
  store?: Record<string, unknown>;
  /** In the place of what the browser has. */
  around?: Record<string, unknown>;
}

async function shared({ events = [note(1)], calls, store = {}, around = {} }: Given) {
  setUp(around);
  const opened = await jobOpen("share", events, calls ?? { link_make: () => LINK }, store);
  stage = new Stage(render, <ShareScreen />);
  return { stage, ...opened };
}

afterEach(() => {
  stage?.leave();
  handed.length = 0;
});

const LEFT_OUT = /leaves out|Making the link|end the file/;

test("the whole job is in the link, and nothing is said to be left out", async () => {
  const { stage } = await shared({});
  assert.equal(await stage.says("The link has"), "The link has 14 characters.");
  assert.ok(stage.lines.includes(ADDRESS));
  assert.deepEqual(
    stage.lines.filter((line) => LEFT_OUT.test(line)),
    [],
  );
});

test("photos that a link leaves out are counted, those removed again are not", async () => {
  const gone = note(4, { device: "d", n: 3 }, "event withdrawn");
  for (const [events, said] of [
    [[photo(1)], "it leaves out the photo of this job. The file carries them."],
    [[photo(1), photo(2)], "it leaves out the 2 photos of this job."],
    [[photo(1), note(2), photo(3), gone], "it leaves out the photo of this job."],
  ] as const) {
    const { stage } = await shared({ events: [...events] });
    assert.ok((await stage.says("A link carries no photos")).includes(said));
    stage.leave();
  }
});

test("entries with something of a newer release are counted, and the file is advised", async () => {
  for (const [count, begin] of [
    [1, "One entry holds something"],
    [3, "3 entries hold something"],
  ] as const) {
    const { stage } = await shared({ store: { onlyInFile: async () => count } });
    const line = await stage.says("from a newer Footwell");
    assert.ok(line.startsWith(begin), line);
    assert.match(line, /The file keeps everything: better send the file\.$/);
    stage.leave();
  }
});

test("a store that cannot tell what only the file holds does not keep the link from being made", async () => {
  const onlyInFile = async () => {
    throw new Error("The store is closed.");
  };
  const { stage } = await shared({ store: { onlyInFile } });
  await stage.says("The link has 14 characters.");
  assert.ok(!stage.lines.some((line) => line.includes("newer Footwell")));
});

test("a long link says that many apps cut it off; one too large for any phone is not made", async () => {
  const long = { ...LINK, length: 5_000, too_long: true };
  const { stage } = await shared({ calls: { link_make: () => long } });
  await stage.says("The link has 5000 characters. Many apps cut that off: better send the file.");
  assert.ok(stage.key("Copy the link"));
  stage.leave();
  const beyond = await shared({ calls: { link_make: () => ({ ...LINK, text: "" }) } });
  await beyond.stage.says(words.tooLarge);
  assert.equal(beyond.stage.key("Copy the link"), undefined);
  assert.ok(!beyond.stage.lines.includes(words.inside));
  assert.ok(beyond.stage.key("Save as a file"));
});

test("a link that could not be made is told once and not waited for", async () => {
  const link_make = () => {
    throw new Error("Python stopped twice.");
  };
  const { stage } = await shared({ calls: { link_make } });
  await stage.says("Python stopped twice.");
  assert.ok(!stage.lines.includes(words.making));
});

test("nothing is asked before the job's entries are there", async () => {
  let asked = 0;
  const link_make = () => {
    asked += 1;
    return LINK;
  };
  const { stage } = await shared({ events: [], calls: { link_make } });
  await stage.says(words.making);
  await new Promise((next) => setTimeout(next, 60));
  assert.equal(asked, 0);
});

test("a copied link is said to be copied, one that is refused is to be copied by hand", async () => {
  const copied: string[] = [];
  const clipboard = { writeText: async (text: string) => void copied.push(text) };
  const { stage } = await shared({ around: { navigator: { clipboard } } });
  await stage.says("The link has");
  await stage.press("Copy the link");
  await stage.says(words.copied);
  assert.deepEqual(copied, [ADDRESS]);
  stage.leave();
  const refused = await shared({});
  await refused.stage.says("The link has");
  await refused.stage.press("Copy the link");
  await refused.stage.says(/copy it by hand/);
});

test("where the phone can send, it sends the address; a send that was called off says nothing", async () => {
  const sent: unknown[] = [];
  const share = async (what: unknown) => {
    sent.push(what);
    throw new Error("called off");
  };
  const { stage } = await shared({ around: { navigator: { share } } });
  await stage.press("Send the link");
  assert.deepEqual(sent, [{ title: "Footwell job", url: ADDRESS }]);
  assert.ok(!stage.lines.some((line) => line.includes("called off")));
  stage.leave();
  const cannot = await shared({});
  await cannot.stage.says("The link has");
  assert.equal(cannot.stage.key("Send the link"), undefined);
});

test("the file is saved under the job's name and counts as saved", async () => {
  const noted: unknown[] = [];
  const file = { text: "{}\n", leftOut: 2, incomplete: new Set(["x"]) };
  const { stage, job } = await shared({
    store: {
      exported: async (of: string) => ({ ...file, of }),
      noteExported: async (...of: unknown[]) => void noted.push(of),
    },
  });
  await stage.press("Save as a file");
  await stage.says("The file holds every entry, but not 2 photos");
  assert.match(handed.join(), /^footwell-fan-\d{4}-\d\d-\d\d\.jsonl$/);
  assert.deepEqual(noted, [[job, file.incomplete]]);
});

test("a job that Python has not shown yet is saved under no name but its own", async () => {
  const look = () => {
    throw new Error("Not yet.");
  };
  const exported = async () => ({ text: "{}\n", leftOut: 0, incomplete: new Set() });
  const calls = { link_make: () => LINK, look };
  const { stage } = await shared({ calls, store: { exported, noteExported: async () => {} } });
  await stage.press("Save as a file");
  for (let turn = 0; turn < 200 && handed.length === 0; turn++)
    await new Promise((next) => setTimeout(next, 5));
  assert.match(handed.join(), /^footwell-job-\d{4}-\d\d-\d\d\.jsonl$/);
});

test("a file that could not be made is told and does not count as saved", async () => {
  const exported = async () => {
    throw new Error("Nothing could be read.");
  };
  const { stage } = await shared({ store: { exported } });
  await stage.press("Save as a file");
  await stage.says("Nothing could be read.");
  assert.deepEqual(handed, []);
});
