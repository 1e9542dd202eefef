// What becomes of a file that somebody chose, whatever it is: its text, or a sentence that tells what to do.
import "./stage";
import assert from "node:assert/strict";
import { test } from "node:test";
import { notTaken } from "../../web/src/app/ui/FileKey";
import { circuitText } from "../../web/src/features/files/wanted";
import { words } from "../../web/src/features/files/words";
import { told } from "../../web/src/features/jobs/JobsFileKey";
import { StorageProblem, textOf, type Wanted } from "../../web/src/storage";
import { JOBS_FILE, readFile } from "../../web/src/storage/file";

const CHOOSE = "Choose the list.";
const LIST: Wanted = { most: 2_000_000, choose: CHOOSE, otherwise: "windows-1252" };
const bytesOf = (text: string) => Uint8Array.from(text, (sign) => sign.charCodeAt(0));
const fileOf = (text: string) => new Blob([bytesOf(text)]);

/** Two bytes a sign, with or without the mark at its head. */
function utf16(text: string, bigEndian = false): Blob {
  const view = new DataView(new ArrayBuffer(2 * text.length));
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), !bigEndian);
  return new Blob([view]);
}

const refusal = (sentence: RegExp) => (error: unknown) =>
  error instanceof StorageProblem && error.code === "unfit" && sentence.test(error.message);

for (const [name, text, kind] of [
  ["a photo", "\xff\xd8\xff\xe1 and more", "a picture"],
  ["a screenshot", "\x89PNG\r\n\x1a\n\0\0", "a picture"],
  ["a picture of a messenger", "RIFF\0\0\0\0WEBPVP8 ", "a picture"],
  ["a phone's own picture", "\0\0\0\x18ftypheic\0\0", "a picture"],
  ["a wiring diagram to print", "%PDF-1.7\n", "a PDF"],
  ["a spreadsheet", "PK\x03\x04\x14\0", "a spreadsheet, a document or a packed folder"],
  [
    "an old spreadsheet",
    "\xd0\xcf\x11\xe0\xa1\xb1",
    "a spreadsheet, a document or a packed folder",
  ],
] as const)
  test(`${name} is told as what it is, with what to choose`, async () => {
    for (const wanted of [LIST, JOBS_FILE])
      await assert.rejects(textOf(fileOf(text), wanted), {
        message: `It is ${kind}. ${wanted.choose}`,
      });
  });

test("a file of other bytes than text is told", async () => {
  await assert.rejects(textOf(fileOf("from,to\0\0\x01"), LIST), refusal(/^It holds no text\. Cho/));
});

test("an empty file is told as empty, and so is one of empty lines", async () => {
  await assert.rejects(textOf(new Blob([]), LIST), refusal(/^It is empty: nothing of it arrived/));
  await assert.rejects(readFile(" \r\n\n"), refusal(/^It is empty: nothing of it arrived/));
});

test("a file too large is told unread, each kind by its own limit", async () => {
  const large = (size: number) => ({ size }) as Blob;
  await assert.rejects(textOf(large(2_000_001), LIST), refusal(/^It is larger than 2 MB\. Choose/));
  await assert.rejects(textOf(large(50_000_001), JOBS_FILE), refusal(/^It is larger than 50 MB/));
});

test("a file that is gone when it is read is told", async () => {
  const gone = { size: 1, arrayBuffer: () => Promise.reject(new Error()) } as unknown as Blob;
  await assert.rejects(textOf(gone, LIST), refusal(/^It could not be read\. Copy it onto this/));
});

test("text is read in UTF-8, in UTF-16 with and without its mark, and as old spreadsheets write", async () => {
  const text = "wire,from,to,colour\nW1,Größe,earth,RD\n";
  for (const file of [
    new Blob([text]),
    new Blob(["\ufeff", text]),
    utf16(`\ufeff${text}`),
    utf16(`\ufeff${text}`, true),
    utf16(text),
    utf16(text, true),
    fileOf(text),
  ])
    assert.equal(await textOf(file, LIST), text);
});

test("signs damaged in a file of jobs damage their own line alone", async () => {
  const text = await textOf(fileOf("sound\ndam\xe4ged\nsound"), JOBS_FILE);
  assert.deepEqual(text.split("\n"), ["sound", "dam\ufffdged", "sound"]);
});

test("a file of jobs that is none, or of a newer format, is told with what to do", async () => {
  await assert.rejects(
    readFile("a shopping list"),
    refusal(/^It holds no jobs of Footwell\. Choose a/),
  );
  const newer = '{"footwell":"events","format":2,"count":1}\n{"any":"thing"}\n';
  await assert.rejects(
    readFile(newer),
    refusal(/^It was made by a newer Footwell\. Update this one/),
  );
});

test("a list, a circuit and a file of jobs are told from one another where another was wanted", async () => {
  const files = { list: "from,to\nX1.1,earth\n", sheet: ' {"format": 1}' };
  const jobs = '{"footwell":"events","format":1,"count":0}\n';
  for (const form of ["list", "sheet"] as const) {
    const other = form === "list" ? "sheet" : "list";
    assert.equal(await circuitText(new Blob([files[form]]), form), files[form]);
    await assert.rejects(circuitText(new Blob([files[other]]), form), {
      message: `${words.isNo[form]} ${words.choose[form]}`,
    });
    await assert.rejects(circuitText(new Blob([jobs]), form), { message: words.isJobs });
    assert.equal(await circuitText(new Blob([" \n"]), form), " \n");
    await assert.rejects(
      circuitText(new Blob([new Uint8Array(2_000_001)]), form),
      /larger than 2 MB/,
    );
  }
});

test("what was not taken in is told by its name, without signs that nobody sees", () => {
  assert.equal(
    notTaken("job\u202elnosj\u200b.exe", "Why."),
    "“joblnosj.exe” was not taken in, and nothing was changed. Why.",
  );
  assert.match(notTaken("x".repeat(200), ""), /^“x{48}…” was/);
});

test("of a file damaged throughout five lines are told and the others counted", () => {
  const lines = Array.from({ length: 7 }, (_, i) => `Line ${i} is damaged.`);
  assert.deepEqual(told(lines.slice(0, 5)), lines.slice(0, 5));
  assert.deepEqual(told(lines), [...lines.slice(0, 5), "2 more entries were left out."]);
});
