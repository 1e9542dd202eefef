// The bridge against a worker that does what the test says.
import assert from "node:assert/strict";
import { mock, test } from "node:test";
import { Bridge, PATIENCE } from "../../web/src/worker/bridge";
import type { CallError } from "../../web/src/worker/errors";
import type { Link, Listener } from "../../web/src/worker/link";
import type { Question, Way } from "../../web/src/worker/protocol";

mock.timers.enable({ apis: ["setTimeout"] });

/** A worker that only notes what it is asked. */
class Puppet implements Link {
  readonly asked: Question[] = [];
  closed = false;

  constructor(
    readonly way: Way,
    readonly listener: Listener,
  ) {}

  ask(question: Question) {
    this.asked.push(question);
  }

  close() {
    this.closed = true;
  }

  ready() {
    this.listener.told({ tell: "ready" });
  }

  answer(text: string) {
    const last = this.asked.at(-1);
    if (last) this.listener.told({ tell: "answer", id: last.id, text });
  }
}

function started() {
  const puppets: Puppet[] = [];
  const bridge = new Bridge((way, listener) => {
    puppets.push(new Puppet(way, listener));
    return puppets.at(-1) as Puppet;
  });
  bridge.start();
  const puppet = () => puppets.at(-1) as Puppet;
  return { bridge, puppets, puppet };
}

const waysOf = (puppets: Puppet[]) => puppets.map(({ way }) => way);

const codeOf = (promise: Promise<string>) =>
  promise.then(
    () => "answered",
    (error: CallError) => error.code,
  );

test("calls made while Python loads are sent when it is ready", async () => {
  const { bridge, puppet } = started();
  const answer = bridge.call("look", "{}");
  assert.equal(puppet().asked.length, 0);
  puppet().ready();
  puppet().answer("done");
  assert.equal(await answer, "done");
});

test("calls are sent one at a time, each under a number of its own", async () => {
  const { bridge, puppet } = started();
  puppet().ready();
  const both = [bridge.call("look", "1"), bridge.call("look", "2")];
  assert.equal(puppet().asked.length, 1);
  puppet().answer("first");
  puppet().answer("second");
  assert.deepEqual(await Promise.all(both), ["first", "second"]);
  assert.equal(new Set(puppet().asked.map(({ id }) => id)).size, 2);
});

test("an answer to another number than the one in hand is ignored", async () => {
  const { bridge, puppet } = started();
  puppet().ready();
  const answer = bridge.call("look", "{}");
  puppet().listener.told({ tell: "answer", id: 999, text: "stray" });
  puppet().answer("right");
  assert.equal(await answer, "right");
});

test("a newer call takes the place of those of its name that wait", async () => {
  const { bridge, puppet } = started();
  puppet().ready();
  const inHand = bridge.call("look", "1");
  const waiting = bridge.call("look", "2");
  const other = bridge.call("wiring", "3");
  const newest = bridge.call("look", "4", { supersede: true });
  assert.equal(await codeOf(inHand), "superseded");
  assert.equal(await codeOf(waiting), "superseded");
  puppet().answer("too late");
  puppet().answer("wiring");
  puppet().answer("newest");
  assert.equal(await other, "wiring");
  assert.equal(await newest, "newest");
});

test("a call in hand when the worker dies is sent to the next one, before those that waited", async () => {
  const { bridge, puppet, puppets } = started();
  puppet().ready();
  const inHand = bridge.call("look", "1");
  const waiting = bridge.call("wiring", "2");
  puppet().listener.gone();
  assert.equal(puppets.length, 2);
  puppet().ready();
  puppet().answer("one");
  puppet().answer("two");
  assert.deepEqual(await Promise.all([inHand, waiting]), ["one", "two"]);
});

test("a call over which two workers died is rejected, and the next one goes on", async () => {
  const { bridge, puppet } = started();
  puppet().ready();
  const deadly = bridge.call("look", "1");
  const harmless = bridge.call("wiring", "2");
  for (let death = 0; death < 2; death++) {
    puppet().listener.gone();
    puppet().ready();
  }
  assert.equal(await codeOf(deadly), "worker_died");
  puppet().answer("fine");
  assert.equal(await harmless, "fine");
});

test("a superseded call is not repeated after a death", async () => {
  const { bridge, puppet } = started();
  puppet().ready();
  const old = codeOf(bridge.call("look", "1"));
  const newest = bridge.call("look", "2", { supersede: true });
  puppet().listener.gone();
  puppet().ready();
  puppet().answer("newest");
  assert.equal(await old, "superseded");
  assert.equal(await newest, "newest");
  assert.equal(puppet().asked.length, 1);
});

test("a worker that says that it works on a call is waited for", async () => {
  const { bridge, puppet, puppets } = started();
  puppet().ready();
  const answer = bridge.call("look", "1");
  for (let words = 0; words < 5; words += 1) {
    mock.timers.tick(PATIENCE.callMs - 1);
    puppet().listener.told({ tell: "working" });
  }
  puppet().answer("at last");
  assert.equal(await answer, "at last");
  assert.equal(puppets.length, 1);
});

test("work on a call without end is given up", () => {
  const { bridge, puppet, puppets } = started();
  puppet().ready();
  bridge.call("look", "1").catch(() => {});
  for (let spent = 0; spent < PATIENCE.mostMs; spent += PATIENCE.callMs) {
    puppet().listener.told({ tell: "working" });
    mock.timers.tick(PATIENCE.callMs - 1);
  }
  mock.timers.tick(PATIENCE.callMs);
  assert.equal(puppets[0]?.closed, true);
});

test("the time of one call is not counted for the next", () => {
  const { bridge, puppet, puppets } = started();
  puppet().ready();
  bridge.call("look", "1").catch(() => {});
  puppet().answer("soon");
  mock.timers.tick(PATIENCE.mostMs);
  assert.equal(puppets[0]?.closed, false);
});

test("a worker that stays silent over a call is taken for dead", async () => {
  const { bridge, puppet, puppets } = started();
  puppet().ready();
  const answer = bridge.call("look", "1");
  mock.timers.tick(PATIENCE.callMs);
  assert.equal(puppets[0]?.closed, true);
  puppet().ready();
  puppet().answer("from the second");
  assert.equal(await answer, "from the second");
});

test("a worker that is here and never says a word is replaced soon", () => {
  const { puppet, puppets } = started();
  puppet().listener.told({ tell: "fetched" });
  mock.timers.tick(PATIENCE.firstWordMs);
  assert.equal(puppets.length, 2);
});

test("a worker of which nothing is heard is replaced once its script should long be here", () => {
  const { puppets } = started();
  mock.timers.tick(PATIENCE.scriptMs);
  assert.equal(puppets.length, 2);
});

test("a worker whose script is long on its way is waited for", () => {
  const { puppet, puppets } = started();
  mock.timers.tick(PATIENCE.scriptMs - 1);
  assert.equal(puppets.length, 1);
  puppet().listener.told({ tell: "alive" });
  puppet().listener.told({ tell: "no image" });
  puppet().listener.told({ tell: "fetched" });
  mock.timers.tick(PATIENCE.startMs - 1);
  assert.equal(puppets.length, 1, "the word that it was fetched came after its own");
});

test("a worker that has spoken may take long to start", () => {
  const { puppet, puppets } = started();
  puppet().listener.told({ tell: "alive" });
  puppet().listener.told({ tell: "no image" });
  mock.timers.tick(PATIENCE.startMs - 1);
  assert.equal(puppets.length, 1);
  mock.timers.tick(1);
  assert.equal(puppets.length, 2);
});

test("a restore that never ends is given up long before a start over the network would be", () => {
  const { puppet, puppets } = started();
  puppet().listener.told({ tell: "alive" });
  mock.timers.tick(PATIENCE.restoreMs);
  assert.deepEqual(
    puppets.map(({ way }) => way),
    ["image", "bundle"],
  );
});

test("a worker that cannot restore is followed by a plain start, without a word", () => {
  for (const end of ["failed", "dying"] as const) {
    const { bridge, puppet, puppets } = started();
    const before = bridge.state.value;
    puppet().listener.told({ tell: end, reason: "no use" });
    assert.equal(puppets.at(-1)?.way, "bundle");
    assert.deepEqual(bridge.state.value, before);
  }
});

test("a worker from the image that dies of itself is followed by a plain one, and that by the image", async () => {
  const { bridge, puppet, puppets } = started();
  puppet().ready();
  const deadly = codeOf(bridge.call("look", "{}"));
  for (let death = 0; death < 2; death++) {
    puppet().listener.told({ tell: "dying", reason: "a trap" });
    puppet().ready();
  }
  assert.deepEqual(waysOf(puppets), ["image", "bundle", "image"]);
  assert.equal(await deadly, "worker_died");
});

test("a worker from the image that falls silent over a call is followed by a plain one", () => {
  const { bridge, puppet, puppets } = started();
  puppet().ready();
  codeOf(bridge.call("look", "{}"));
  mock.timers.tick(PATIENCE.callMs);
  assert.deepEqual(waysOf(puppets), ["image", "bundle"]);
});

test("a worker from the image that the browser took away did not die of it", () => {
  const { bridge, puppet, puppets } = started();
  puppet().ready();
  puppet().listener.gone();
  puppet().ready();
  codeOf(bridge.call("look", "{}"));
  puppet().listener.gone();
  assert.deepEqual(waysOf(puppets), ["image", "image", "image"]);
});

test("Python is idle when it is ready and has no call in hand", () => {
  const { bridge, puppet } = started();
  assert.equal(bridge.isIdle, false);
  puppet().ready();
  assert.equal(bridge.isIdle, true);
  bridge.call("look", "{}");
  assert.equal(bridge.isIdle, false);
  puppet().answer("done");
  assert.equal(bridge.isIdle, true);
});

test("a worker without the bundle is followed by one with the wheels", () => {
  const { bridge, puppet, puppets } = started();
  puppet().listener.told({ tell: "no image" });
  puppet().listener.told({ tell: "failed", reason: "no bundle" });
  assert.deepEqual(
    puppets.map(({ way }) => way),
    ["image", "wheels"],
  );
  assert.equal(bridge.state.value.state, "loading");
});

test("when the wheels fail too, waiting and later calls are rejected with the reason", async () => {
  const { bridge, puppet } = started();
  const waiting = codeOf(bridge.call("look", "1"));
  puppet().listener.told({ tell: "no image" });
  puppet().listener.told({ tell: "failed", reason: "no bundle" });
  puppet().listener.told({ tell: "failed", reason: "no wheels" });
  assert.deepEqual(bridge.state.value, { state: "failed", reason: "no wheels" });
  assert.equal(await waiting, "no_python");
  assert.equal(await codeOf(bridge.call("look", "2")), "no_python");
});

test("what an abandoned worker still says is not heard", () => {
  const { bridge, puppet, puppets } = started();
  puppet().listener.gone();
  puppets[0]?.listener.told({ tell: "failed", reason: "late" });
  assert.equal(bridge.state.value.state, "loading");
  assert.equal(puppets.length, 2);
});
