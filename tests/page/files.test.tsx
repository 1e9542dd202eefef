// Files in and out of the screens: a wiring list, the circuit, all jobs; what is wrong is said, nothing is changed.
import "./stage";
import assert from "node:assert/strict";
import { afterEach, mock, test } from "node:test";
import { render } from "preact";
import { FilesScreen } from "../../web/src/features/files/FilesScreen";
import { words } from "../../web/src/features/files/words";
import { fileName, saveFile } from "../../web/src/features/jobs/files";
import { Rescue } from "../../web/src/features/jobs/Rescue";
import { CallError } from "../../web/src/worker/errors";
import { type Answers, connected, jobOpen, note } from "./fake_ports";
import { handed, Stage, setUp } from "./stage";

const ENTRY = { kind: "wires listed", body: { wires: [] } };
const READ = { entry: ENTRY, wires: 3, fresh: [], changed: [], notices: [] };
const LIST = new File(["from,to\nX1.1,earth\n"], "wires.csv");

let stage: Stage | undefined;

async function files(calls: Answers, store: Record<string, unknown> = {}) {
  setUp();
  const opened = await jobOpen("files", [note(1)], calls, store);
  stage = new Stage(render, <FilesScreen />);
  return { stage, ...opened };
}

afterEach(() => {
  stage?.leave();
  handed.length = 0;
});

test("of a list is told what is new and what would change, by name", async () => {
  const read = { ...READ, fresh: ["W7", "W8"], changed: ["W1"], notices: ["RD is in X2 twice."] };
  const { stage } = await files({ list_read: () => read });
  await stage.choose(words.open, LIST);
  await stage.says("3 wires in the list.");
  for (const line of ["New: W7, W8.", "Changed: W1.", "RD is in X2 twice."])
    assert.ok(stage.lines.includes(line), line);
  assert.ok(stage.key(words.take));
});

test("a list that the sheet has already changes nothing and offers nothing", async () => {
  const { stage } = await files({ list_read: () => ({ ...READ, wires: 1 }) });
  await stage.choose(words.open, LIST);
  await stage.says("1 wire in the list.");
  assert.ok(stage.lines.includes(words.none));
  assert.equal(stage.key(words.take), undefined);
});

test("every slip in a list is told, with the file's name; another refusal has said all in one", async () => {
  const slips = ["line 2, column 4 (colour): RX is none.", "line 3, column 3 (to): No X99."];
  for (const [code, details, told] of [
    ["bad_list", slips, slips],
    ["bad_list", "odd", []],
    ["other", slips, []],
  ] as const) {
    const list_read = () => {
      throw new CallError(code, "Nothing was taken over.", details);
    };
    const { stage } = await files({ list_read });
    await stage.choose(words.open, LIST);
    await stage.says("“wires.csv” was not taken in, and nothing was changed. Nothing was taken");
    assert.deepEqual(
      stage.lines.filter((line) => line.startsWith("line ")),
      told,
    );
    stage.leave();
  }
});

test("a list taken over is one entry; one that found no room waits on", async () => {
  const stored: unknown[] = [];
  let full = true;
  const appendMany = async (entries: object[]) => {
    if (full) throw new Error("Not saved: this phone has no room left.");
    stored.push(...entries);
    return [note(2)];
  };
  const list_read = () => ({ ...READ, fresh: ["W7"] });
  const { stage, job } = await files({ list_read }, { appendMany });
  await stage.choose(words.open, LIST);
  await stage.press(words.take);
  await stage.says("no room left");
  assert.ok(stage.key(words.take));
  full = false;
  await new Promise((next) => setTimeout(next, 450)); // a second touch so soon is the same touch
  await stage.press(words.take);
  await stage.says(words.taken);
  assert.deepEqual(stored, [{ job, ...ENTRY }]);
  assert.equal(stage.key(words.take), undefined);
});

test("the circuit goes out as a file of its form, with what is odd about it", async () => {
  const file_make = () => ({ text: ".op", warnings: ["The lamp is assumed."] });
  const { stage } = await files({ file_make });
  await stage.press(words.netlist);
  await stage.says("The lamp is assumed.");
  assert.match(handed.join(), /^footwell-fan-.+\.cir$/);
});

test("the circuit of a job without a title is called so", async () => {
  const untitled = () => ({ controls: [], diagram: { places: [] } });
  const file_make = () => ({ text: ".op", warnings: ["The lamp is assumed."] });
  const { stage } = await files({ file_make, look: untitled });
  await stage.press(words.netlist);
  await stage.says("The lamp is assumed.");
  assert.match(handed.join(), /^footwell-circuit-.+\.cir$/);
});

test("the simulator's file is asked for in the positions that were chosen", async () => {
  const asked: unknown[] = [];
  const file_make = (request: object) => {
    asked.push(request);
    return { text: ".op", warnings: [] };
  };
  const positions = ["off", "1"].map((id) => ({ id, name: `position ${id}` }));
  const controls = [{ id: "S1", name: "fan switch", positions }];
  const look = () => ({ title: "", controls });
  const { stage } = await files({ look, file_make });
  await stage.press("position 1");
  await stage.press(words.netlist);
  await stage.says("Saved as footwell-");
  assert.deepEqual(asked, [{ events: [note(1)], form: "netlist", controls: { S1: "1" } }]);
  await stage.press(words.back);
});

test("a file that cannot be made is told, and none is handed over", async () => {
  const { stage } = await files({});
  await stage.press(words.sheet);
  await stage.says("file_make cannot be answered.");
  assert.deepEqual(handed, []);
});

test("a file's name has letters, digits and the day, whatever the job is called", () => {
  const day = new Date(2026, 2, 3);
  assert.equal(fileName("Größe: «3» / été", "csv", day), "footwell-große-3-ete-2026-03-03.csv");
  assert.equal(fileName("\u202e…", "csv", day), "footwell-2026-03-03.csv");
});

test("the address of a saved file is given back after a minute", () => {
  setUp();
  mock.timers.enable({ apis: ["setTimeout"] });
  const given = mock.method(URL, "revokeObjectURL");
  saveFile("x.csv", "text");
  mock.timers.tick(59_999);
  assert.equal(given.mock.callCount(), 0);
  mock.timers.tick(1);
  assert.equal(given.mock.callCount(), 1);
  mock.timers.reset();
});

test("a rescue that can read nothing says so, and one that can hands a file over", async () => {
  setUp();
  const { store } = connected({}, { noteExported: async () => {} });
  stage = new Stage(render, <Rescue />);
  await stage.press("Save everything as a file");
  await stage.says("Nothing could be read from the store.");
  const exported = async () => ({ text: "{}", leftOut: 0, incomplete: new Set() });
  Object.assign(store, { exported });
  await stage.press("Save everything as a file");
  while (handed.length === 0) await new Promise((next) => setTimeout(next, 5));
  assert.match(handed.join(), /^footwell-rescue-/);
  assert.equal(stage.key("Go on with what is here"), undefined);
});

test("a store that was emptied can be gone on with, or filled from a file", async () => {
  setUp();
  let wentOn = false;
  const imported = { events: [note(1), note(2)], photos: 1, refused: ["Line 4 is damaged."] };
  const { store } = connected(
    {},
    {
      importFile: async () => imported,
      goOn: () => {
        wentOn = true;
      },
    },
  );
  store.state.value = { emptied: "Saved work is gone." };
  stage = new Stage(render, <Rescue />);
  await stage.choose("Open a file", new File(["x"], "all.jsonl"));
  await stage.says("2 entries and 1 photo added from the file.");
  assert.ok(stage.lines.includes("Line 4 is damaged."));
  await stage.press("Go on with what is here");
  assert.ok(wentOn);
});
