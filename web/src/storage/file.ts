import { EMPTY, unfit, type Wanted } from "./chosen";
import { LONGEST_BODY, type Origin, type Photo, type StoredEvent, sha256 } from "./event";
import { fieldsOf, isCount, isName, parsed } from "./foreign";
import { photoNamed, soundPhoto } from "./photos";

/**
 * The file of events: a heading, then one event a line, each body as the text it is. Beside the body of an
 * event that names a photo stands the photo, in base64: a release that knows no photos keeps such a line
 * as it came, and hands it on.
 */
const FILE_FORMAT = 1;

const CHOOSE =
  "Choose a file that Footwell saved from a job: it ends in .jsonl. A circuit file is opened under New job, " +
  "a wiring list in its job, under Circuit as a file.";

/** The size is far above any phone's work. */
export const JOBS_FILE: Wanted = { most: 50_000_000, choose: CHOOSE, otherwise: "utf-8" };

/** A body of many quotes doubles in writing; beside it there is room for what a later release adds. */
const LONGEST_LINE = 4 * LONGEST_BODY;

const FIELDS = new Set("device n job kind format at body sha256 origin".split(" "));
const FIELDS_WITH_PHOTO = new Set([...FIELDS, "jpeg"]);

export interface FileRead {
  /** The sound entries by the number of their line. */
  readonly events: Map<number, StoredEvent>;
  /** Their photos, as far as they came, by the same number. */
  readonly photos: Map<number, Photo>;
  /** Of everything that is not among them: why, in sentences. */
  readonly refused: string[];
}

/**
 * The file's text; the heading's hash covers the lines below it, ends of lines as "\n". `jpegs` are the
 * photos in base64, by the event that names them.
 */
export async function fileOf(
  events: readonly StoredEvent[],
  jpegs: ReadonlyMap<StoredEvent, string> = new Map(),
): Promise<string> {
  const lines = events.map((event) => event.line ?? lineOf(event, jpegs.get(event)));
  const count = events.length;
  const hash = await hashOf(lines);
  return `${[headingOf(count, hash), ...lines].join("\n")}\n`;
}

const lineOf = (event: StoredEvent, jpeg: string | undefined): string =>
  JSON.stringify(jpeg === undefined ? event : { ...event, jpeg });

const headingOf = (count: number, hash: string): string =>
  JSON.stringify({ footwell: "events", format: FILE_FORMAT, count, sha256: hash });

const hashOf = (lines: readonly string[]): Promise<string> =>
  sha256(lines.map((line) => `${line}\n`).join(""));

/** Damaged entries are told, and do not stand in the way of the sound ones. */
export async function readFile(text: string): Promise<FileRead> {
  const [first = "", ...rest] = text.replace(/^\uFEFF/, "").split(/\r?\n/);
  const lines = rest.at(-1) === "" ? rest.slice(0, -1) : rest;
  if (text.trim() === "") throw unfit(EMPTY);
  const heading = headingIn(parsed(first));
  const file: FileRead = { events: new Map(), photos: new Map(), refused: [] };
  for (const [i, line] of lines.entries()) if (line !== "") await readLine(file, i + 2, line);
  const found = lines.filter((line) => line !== "").length;
  if (found < heading.count) file.refused.unshift(cutOff(heading.count, found));
  else if (file.refused.length > 0) file.refused.unshift(DAMAGED);
  else if (heading.hash && heading.hash !== (await hashOf(lines))) file.refused.push(CHANGED);
  return file;
}

async function readLine({ events, photos, refused }: FileRead, n: number, line: string) {
  const value = line.length > LONGEST_LINE ? undefined : parsed(line);
  const event = await soundEvent(value);
  if (!event) {
    refused.push(`Line ${n} is damaged and was left out.`);
    return;
  }
  const fields = fieldsOf(value);
  const { jpeg } = fields;
  const name = typeof jpeg === "string" ? photoNamed(event) : undefined;
  const known = name === undefined ? FIELDS : FIELDS_WITH_PHOTO;
  const isKnown = Object.keys(fields).every((field) => known.has(field));
  events.set(n, isKnown ? event : withLine(event, line));
  if (name === undefined) return;
  const photo = await soundPhoto(String(jpeg), name);
  if (photo) photos.set(n, photo);
  else refused.push(`The photo in line ${n} is damaged and was left out; its entry is here.`);
}

/** A line with fields that only a later release knows is kept beside what is known of it. */
function withLine(event: StoredEvent, line: string): StoredEvent {
  return { ...event, line };
}

const AGAIN = "Have it sent or save it once more, and open that too: nothing comes twice.";

const cutOff = (count: number, found: number): string =>
  `The file is cut off: of ${count} entries it holds ${found}. ${AGAIN}`;

const DAMAGED = `The file is damaged. ${AGAIN}`;

const CHANGED =
  "The file was changed after it was saved. Entries with sound contents were added; " +
  "their times or order may be wrong. If you can, save it again on the phone it came from.";

/** Files of the first releases have no hash in their heading. */
function headingIn(value: unknown): { count: number; hash: string } {
  const { footwell, format, count, sha256: hash } = fieldsOf(value);
  if (footwell !== "events") throw unfit(`It holds no jobs of Footwell. ${CHOOSE}`);
  if (format !== FILE_FORMAT)
    throw unfit("It was made by a newer Footwell. Update this one, then open the file again.");
  return { count: isCount(count) ? count : 0, hash: typeof hash === "string" ? hash : "" };
}

/** Built field by field: keys of a stranger's file never reach our objects. */
async function soundEvent(value: unknown): Promise<StoredEvent | undefined> {
  const { device, n, job, kind, format, at, body, sha256: hash, origin } = fieldsOf(value);
  if (!isName(device, 64) || !isCount(n) || !isName(job, 64)) return undefined;
  if (!isName(kind, 40) || !isCount(format)) return undefined;
  if (typeof at !== "string" || at.length > 40) return undefined;
  if (!isName(body, LONGEST_BODY) || hash !== (await sha256(body))) return undefined;
  const event = { device, n, job, kind, format, at, body, sha256: hash };
  if (origin === undefined) return event;
  const first = soundOrigin(origin);
  return first && { ...event, origin: first };
}

function soundOrigin(value: unknown): Origin | undefined {
  const { device, n } = fieldsOf(value);
  return isName(device, 64) && isCount(n) ? { device, n } : undefined;
}
