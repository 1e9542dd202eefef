// Of a great many positions and loads a person first says which load it is about.
import "./stage";
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { render } from "preact";
import { useState } from "preact/hooks";
import { PositionRows } from "../../web/src/features/positions/PositionRows";
import type { Told } from "../../web/src/features/positions/state";
import { Stage, setUp } from "./stage";

const WHICH = "Which of them did you look at?";
const controls = [
  {
    id: "S1",
    name: "switch",
    positions: Array.from({ length: 12 }, (_, n) => ({ id: `${n}`, name: `${n}` })),
  },
];
const positions = controls[0]?.positions.map(({ id }) => ({ S1: id })) ?? [];
const loads = (count: number) =>
  Array.from({ length: count }, (_, n) => ({
    id: `H${n}`,
    name: `lamp H${n}`,
    kind: "lamp",
    states: ["dark", "bright"],
    dead: "dark",
    dead_words: "Dark",
  }));

let now: Told = {};

function Rows({ count, before = {} }: { count: number; before?: Told }) {
  const [told, setTold] = useState<Told>(before);
  now = told;
  return (
    <PositionRows
      positions={positions}
      loads={loads(count)}
      controls={controls}
      told={told}
      onTell={setTold}
    />
  );
}

const asked = (stage: Stage) => stage.lines.filter((line) => line.startsWith("switch"));
const aMoment = () => new Promise((next) => setTimeout(next, 5));

beforeEach(() => setUp());

test("of two loads in twelve positions each is asked, of three those that are named", async () => {
  const few = new Stage(render, <Rows count={2} />);
  assert.equal(asked(few).length, 24);
  assert.ok(!few.lines.includes(WHICH));
  const many = new Stage(render, <Rows count={3} />);
  assert.equal(asked(many).length, 0);
  await many.says(WHICH);
  await many.press("lamp H1");
  await many.says("switch 11: lamp H1");
  assert.equal(asked(many).length, 12);
});

test("what was told before is shown, and nothing of a load counts that is taken out again", async () => {
  const before = { "S1=3/H0": "dark", "S1=4/H2": "bright" };
  const stage = new Stage(render, <Rows count={3} before={before} />);
  assert.equal(asked(stage).length, 24);
  await stage.press("lamp H0");
  await aMoment();
  assert.deepEqual(now, { "S1=4/H2": "bright" });
  assert.equal(asked(stage).length, 12);
});
