// The image as it is kept: which one fits, and when it is given up.
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { DamagedImage, eraseImages, KeptImage } from "../../web/src/storage/image";

const FOLDER = new URL("https://phone.test/image/");
const KEY = ["interpreter", "bundle", "core", "engine"];
const BYTES = new Uint8Array([1, 2, 3, 4]);

/** As much of the browser's caches as is used. */
class Caches {
  readonly stores = new Map<string, Map<string, Response>>();

  has = async (name: string) => this.stores.has(name);
  delete = async (name: string) => this.stores.delete(name);

  async open(name: string) {
    const entries = this.stores.get(name) ?? new Map<string, Response>();
    this.stores.set(name, entries);
    const urlOf = (it: string | Request) => (typeof it === "string" ? it : it.url);
    return {
      match: async (url: string) => entries.get(url)?.clone(),
      put: async (url: string, response: Response) => entries.set(url, response),
      delete: async (it: string | Request) => entries.delete(urlOf(it)),
      keys: async () => [...entries.keys()].map((url) => new Request(url)),
    };
  }
}

let caches: Caches;

function phoneWith(quota: number) {
  caches = new Caches();
  const estimate = async () => ({ quota, usage: 0 });
  Object.defineProperty(globalThis, "caches", { value: caches, configurable: true });
  const value = { storage: { estimate } };
  Object.defineProperty(globalThis, "navigator", { value, configurable: true });
}

beforeEach(() => phoneWith(2_000_000_000));

const own = () => new KeptImage(KEY, FOLDER);

async function tried(image: KeptImage) {
  const kept = await image.begin();
  return kept && image.bytesOf(kept);
}

test("a phone without an image starts plainly and wants one", async () => {
  assert.equal(await own().begin(), undefined);
  assert.equal(await own().isWanted(), true);
});

test("what is kept comes back byte by byte, and no other is wanted", async () => {
  await own().keep(BYTES);
  assert.deepEqual(await tried(own()), BYTES);
  assert.equal(await own().isWanted(), false);
});

for (const [place, part] of KEY.entries()) {
  test(`an image of another ${part} is not taken, and goes when one that fits is kept`, async () => {
    const other = new KeptImage(KEY.with(place, "another"), FOLDER);
    await other.keep(BYTES);
    assert.equal(await own().begin(), undefined);
    await own().keep(BYTES);
    assert.equal(await other.begin(), undefined);
  });
}

test("a damaged image is refused and removed", async () => {
  await own().keep(BYTES);
  const cache = await caches.open("footwell-image");
  const [request] = await cache.keys();
  const headers = (await cache.match(request?.url ?? ""))?.headers as Headers;
  await cache.put(request?.url ?? "", new Response(new Uint8Array([1, 2, 3, 5]), { headers }));
  await assert.rejects(() => tried(own()), DamagedImage);
  assert.equal(await own().begin(), undefined);
});

test("two restores that did not end well give the image up and make no other", async () => {
  await own().keep(BYTES);
  assert.ok(await own().begin());
  assert.ok(await own().begin());
  assert.equal(await own().begin(), undefined);
  assert.equal(await own().isWanted(), false);
});

test("a restore that works forgives the one before it", async () => {
  await own().keep(BYTES);
  for (let n = 0; n < 3; n += 1) {
    assert.ok(await own().begin());
    assert.ok(await own().begin());
    await own().worked();
  }
});

test("another release is not held to the failures of this one", async () => {
  await own().keep(BYTES);
  await own().begin();
  await own().begin();
  const next = new KeptImage(KEY.with(1, "next bundle"), FOLDER);
  assert.equal(await next.isWanted(), true);
});

test("where room is short none is made: jobs come first", async () => {
  phoneWith(300_000_000);
  assert.equal(await own().isWanted(), false);
});

test("erasing leaves nothing of it", async () => {
  await own().keep(BYTES);
  await eraseImages();
  assert.equal(caches.stores.size, 0);
});
