// Photos without a browser: what is let in, how small they get, and how a file carries them.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fitted, PhotoProblem, shrunk, statedSize } from "../../web/src/features/photos/shrink";
import { MOST_BYTES } from "../../web/src/storage";
import type { Database } from "../../web/src/storage/database";
import { type StoredEvent, sha256 } from "../../web/src/storage/event";
import { fileOf, readFile } from "../../web/src/storage/file";
import { jpegSize } from "../../web/src/storage/jpeg";
import { exportedFrom } from "../../web/src/storage/outgoing";
import { asText } from "../../web/src/storage/photos";

const bytesOf = (text: string) => Uint8Array.from(text, (sign) => sign.charCodeAt(0));

const word = (n: number) => String.fromCharCode(n >> 8, n & 255);

/** As much of a JPEG as is looked at: a comment, then a frame header. */
const jpeg = (width: number, height: number, comment = "") =>
  bytesOf(
    `\xff\xd8\xff\xfe${word(comment.length + 2)}${comment}\xff\xff\xc4${word(2)}` +
      `\xff\xc2${word(11)}\x08${word(height)}${word(width)}\x01\x01\x11\x00\xff\xd9`,
  );

const png = (width: number, height: number) =>
  bytesOf(
    `\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0${word(width)}\0\0${word(height)}\x08\x02\0\0\0 and more`,
  );

test("a JPEG tells its size behind whatever stands before its frame", () => {
  assert.deepEqual(jpegSize(jpeg(1600, 900, "x".repeat(700))), { width: 1600, height: 900 });
});

test("what is cut, has no size or is no JPEG has none", () => {
  for (const bytes of [
    jpeg(0, 9),
    jpeg(9, 9).subarray(0, 16),
    png(9, 9),
    bytesOf(""),
    bytesOf("\xff\xd8\xff\xda  in the midst of a picture"),
    bytesOf("\xff\xd8 no mark at all stands here"),
  ])
    assert.equal(jpegSize(bytes), undefined);
});

test("pictures are told by their first bytes, whatever the file is called", () => {
  assert.equal(statedSize(jpeg(8, 6)).type, "image/jpeg");
  assert.deepEqual(statedSize(png(8, 6)), { type: "image/png", width: 8, height: 6 });
  assert.equal(statedSize(bytesOf("RIFF\0\0\0\0WEBPVP8 ")).type, "image/webp");
  assert.equal(statedSize(bytesOf("\0\0\0\x18ftypheic\0\0")).type, "image/heic");
});

for (const [name, text] of Object.entries({
  "a drawing with a script": "<svg xmlns='http://www.w3.org/2000/svg'><script>hit=1</script></svg>",
  "a page": "<!doctype html><script>hit=1</script>",
  "a film": "\0\0\0\x18ftypmp42\0\0\0\0mp42isom",
  "moving pictures": "GIF89a\x01\0\x01\0",
  "an empty file": "",
}))
  test(`${name} reaches no decoder and is told`, async () => {
    await assert.rejects(shrunk(new Blob([bytesOf(text)], { type: "image/jpeg" })), {
      message: /this file is no photo/,
    });
  });

test("a picture of more than 20 MB or 40 megapixels is told before it is decoded", async () => {
  await assert.rejects(shrunk(new Blob([new Uint8Array(20_000_001)])), /larger than 20 MB/);
  await assert.rejects(shrunk(new Blob([png(8000, 5001)])), /more than 40 megapixels/);
  await assert.rejects(shrunk(new Blob([jpeg(8000, 5001)])), /more than 40 megapixels/);
});

test("a picture that is gone when it is read is told", async () => {
  const gone = { size: 1, arrayBuffer: () => Promise.reject(new Error()) } as unknown as Blob;
  await assert.rejects(shrunk(gone), /cannot be read here/);
});

test("a browser that cannot decode pictures is told so, and so is a damaged picture", async () => {
  await assert.rejects(shrunk(new Blob([png(8, 6)])), /cannot make photos small/);
  const decode = () => Promise.reject(new Error("damaged"));
  Object.assign(globalThis, { createImageBitmap: decode });
  await assert.rejects(shrunk(new Blob([png(8, 6)])), /cannot be read here/);
  const large = async () => ({ width: 8000, height: 5001, close() {} });
  Object.assign(globalThis, { createImageBitmap: large });
  await assert.rejects(shrunk(new Blob([bytesOf("RIFF\0\0\0\0WEBPVP8 ")])), /40 megapixels/);
  Reflect.deleteProperty(globalThis, "createImageBitmap");
});

/** An encoder whose pictures take so many bytes a pixel at full quality. */
function encoder(perPixel: number) {
  const asked: string[] = [];
  const encode = async (size: { width: number; height: number }, quality: number) => {
    asked.push(`${size.width}x${size.height} ${quality}`);
    return new Uint8Array(Math.round(size.width * size.height * perPixel * quality));
  };
  return { asked, encode };
}

test("a plain picture keeps its quality, and one that is small already its size", async () => {
  const { asked, encode } = encoder(0.1);
  const { width, height } = await fitted({ width: 4000, height: 3000 }, encode);
  assert.deepEqual([width, height, asked.length], [1600, 1200, 1]);
  const small = await fitted({ width: 90, height: 120 }, encode);
  assert.deepEqual([small.width, small.height], [90, 120]);
});

test("the quality is lowered in steps until a picture fits, then its size", async () => {
  const busy = encoder(0.2);
  const { bytes, width } = await fitted({ width: 3000, height: 4000 }, busy.encode);
  assert.ok(bytes.length <= MOST_BYTES && width === 1200);
  const qualities = [0.82, 0.7, 0.6, 0.5, 0.4];
  assert.deepEqual(
    busy.asked,
    qualities.map((quality) => `1200x1600 ${quality}`),
  );
  const noise = encoder(1);
  const found = await fitted({ width: 4000, height: 3000 }, noise.encode);
  assert.ok(found.bytes.length <= MOST_BYTES && found.width < 1600 && found.width >= 675);
});

test("a picture that fits in no way is told", async () => {
  await assert.rejects(fitted({ width: 4000, height: 3000 }, encoder(100).encode), PhotoProblem);
});

async function photographed(picture: Uint8Array<ArrayBuffer>, more = {}): Promise<StoredEvent> {
  const body = JSON.stringify({ connector: "X2", half: "a", sha256: await sha256(picture) });
  const kind = "connector photographed";
  const event = { device: "d", n: 1, job: "j", kind, format: 1, at: "", body };
  return { ...event, sha256: await sha256(body), ...more };
}

const read = async (event: StoredEvent, picture: Uint8Array) =>
  readFile(await fileOf([event], new Map([[event, asText(picture)]])));

test("a file carries a photo beside its entry, byte for byte", async () => {
  const picture = jpeg(64, 48, "seen");
  const event = await photographed(picture);
  const { events, photos, refused } = await read(event, picture);
  assert.deepEqual(refused, []);
  assert.deepEqual(events.get(2), event);
  assert.deepEqual(photos.get(2)?.bytes, picture);
});

for (const [name, spoilt] of Object.entries({
  "of another name": jpeg(64, 48, "other"),
  "that is no JPEG": bytesOf("<svg onload=hit=1></svg>"),
  "larger than any of ours": jpeg(1601, 48),
}))
  test(`a photo ${name} is refused in words, and its entry is taken`, async () => {
    const right = name === "of another name" ? jpeg(64, 48) : spoilt;
    const event = await photographed(right);
    const { events, photos, refused } = await read(event, spoilt);
    assert.deepEqual(refused, [
      "The file is damaged. Have it sent or save it once more, and open that too: nothing comes twice.",
      "The photo in line 2 is damaged and was left out; its entry is here.",
    ]);
    assert.deepEqual([events.get(2), photos.size], [event, 0]);
  });

test("a photo that is no base64 or far too long is refused", async () => {
  const event = await photographed(jpeg(64, 48));
  for (const text of ["*", "A".repeat(260_000)]) {
    const { photos, refused } = await readFile(await fileOf([event], new Map([[event, text]])));
    assert.equal(photos.size, 0);
    assert.match(refused.join(), /The photo in line 2 is damaged/);
  }
});

test("a field named as the photo's, at an entry of another kind, is kept as it came", async () => {
  const note = await photographed(jpeg(64, 48), { kind: "note made" });
  const file = await fileOf([note], new Map([[note, "anything"]]));
  const { events, refused } = await readFile(file);
  assert.deepEqual(refused, []);
  assert.equal(events.get(2)?.line, file.split("\n")[1]);
});

test("the largest photo fits the longest line that every release reads", async () => {
  const whole = new Uint8Array(MOST_BYTES);
  whole.set(jpeg(1600, 1600));
  const long = { device: "d".repeat(64), job: "j".repeat(64), at: "2".repeat(40) };
  const origin = { device: "o".repeat(64), n: 1e9 };
  const event = await photographed(whole, { ...long, n: 1e9, origin });
  const { photos, refused } = await read(event, whole);
  assert.deepEqual([photos.size, refused], [1, []]);
});

/** A phone on which every entry names the one photo. */
const phoneWith = (events: StoredEvent[], picture: Uint8Array) =>
  ({ getAll: async () => events, get: async () => picture }) as unknown as Database;

test("a file is never larger than what a phone takes in again, whatever its entries take of it", async () => {
  const picture = jpeg(64, 48, "x".repeat(900));
  const one = await photographed(picture);
  const body = JSON.stringify({ text: "Ω".repeat(30_000) });
  const note = { ...one, kind: "note made", body, sha256: await sha256(body) };
  const events = [note, note, one, one].map((event, i) => ({ ...event, n: i + 1 }));
  const most = 123_000;
  const { text, leftOut } = await exportedFrom(phoneWith(events, picture), undefined, most);
  assert.equal(leftOut, 1);
  const { size } = new Blob([text]);
  assert.ok(size <= most && size > most - 2_000, `${size} bytes`);
});

test("a file too large for any phone counts as no copy of its jobs", async () => {
  const one = await photographed(jpeg(64, 48));
  const phone = phoneWith([one, { ...one, job: "k", n: 2 }], jpeg(64, 48));
  const { text } = await exportedFrom(phone, undefined, 0);
  const { size } = new Blob([text]);
  const told = async (most: number) => {
    const { tooLarge, incomplete } = await exportedFrom(phone, undefined, most);
    return [tooLarge, [...incomplete].sort()];
  };
  assert.deepEqual(await told(size - 1), [true, ["j", "k"]]);
  assert.equal((await told(size))[0], false);
});

test("a file without room for all photos leaves out the oldest and says whose", async () => {
  const picture = jpeg(64, 48, "x".repeat(900));
  const one = await photographed(picture);
  const taken = Array.from({ length: 8 }, (_, i) => {
    return { ...one, n: i + 1, job: i < 4 ? "old" : "new" };
  });
  const phone = phoneWith(taken, picture);
  const without = new Blob([(await exportedFrom(phone, undefined, 0)).text]).size;
  const most = without + 6 * (',"jpeg":""'.length + asText(picture).length);
  const { text, leftOut, incomplete } = await exportedFrom(phone, undefined, most);
  assert.deepEqual([[...incomplete], leftOut], [["old"], 2]);
  const { events, photos, refused } = await readFile(text);
  assert.deepEqual([events.size, [...photos.keys()], refused], [8, [4, 5, 6, 7, 8, 9], []]);
});

test("a photo that is not on this phone leaves its entry in the file, and nothing is left out", async () => {
  const one = await photographed(jpeg(64, 48));
  const nowhere = { getAll: async () => [one], get: async () => undefined };
  const phone = { ...nowhere, getAllFromIndex: async () => [one] } as unknown as Database;
  const { text, leftOut } = await exportedFrom(phone);
  assert.deepEqual([leftOut, (await readFile(text)).events.get(2)], [0, one]);
});
