// When the worker that makes the image is started, and when it is stopped.
import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";
import { makingImage } from "../../web/src/worker/making_image";
import type { Way } from "../../web/src/worker/protocol";

mock.timers.enable({ apis: ["setInterval"] });

class Maker {
  static all: Maker[] = [];
  onmessage = () => {};
  ended = false;

  constructor() {
    Maker.all.push(this);
  }

  terminate() {
    this.ended = true;
  }
}

beforeEach(() => {
  Maker.all = [];
  Object.assign(globalThis, { Worker: Maker });
});

const ended = () => Maker.all.map((maker) => maker.ended);
const seconds = (count: number) => mock.timers.tick(count * 1000);

test("one is started after five quiet seconds, and ended when it is over", () => {
  makingImage({ isIdle: true, way: "bundle" }, "maker.js");
  seconds(4);
  assert.deepEqual(ended(), []);
  seconds(1);
  assert.deepEqual(ended(), [false]);
  Maker.all[0]?.onmessage();
  seconds(60);
  assert.deepEqual(ended(), [true]);
});

test("it makes way for a call, and begins again after another five quiet seconds", () => {
  const python = { isIdle: true, way: "bundle" as Way };
  makingImage(python, "maker.js");
  seconds(5);
  python.isIdle = false;
  seconds(1);
  assert.deepEqual(ended(), [true]);
  python.isIdle = true;
  seconds(5);
  assert.deepEqual(ended(), [true, false]);
});

for (const way of ["image", "wheels"] as const) {
  test(`after a start by way of ${way} none is made`, () => {
    makingImage({ isIdle: true, way }, "maker.js");
    seconds(60);
    assert.deepEqual(ended(), []);
  });
}
