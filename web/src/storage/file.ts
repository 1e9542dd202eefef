import { LONGEST_BODY, type Origin, type StoredEvent, sha256 } from "./event";
import { fieldsOf, isCount, isName, parsed } from "./foreign";
import { StorageProblem } from "./problems";

/** The file of events: a heading, then one event a line, each body as the text it is. */
const FILE_FORMAT = 1;

/** Far above any phone's work; a larger file would only exhaust the phone. */
const LONGEST_FILE = 50_000_000;

export interface FileRead {
  /** The sound entries by the number of their line. */
  readonly events: Map<number, StoredEvent>;
  /** Of everything that is not among them: why, in sentences. */
  readonly refused: string[];
}

export function fileOf(events: readonly StoredEvent[]): string {
  const heading = { footwell: "events", format: FILE_FORMAT, count: events.length };
  return [heading, ...events].map((line) => `${JSON.stringify(line)}\n`).join("");
}

/** Damaged entries are told, and do not stand in the way of the sound ones. */
export async function readFile(text: string): Promise<FileRead> {
  if (text.length > LONGEST_FILE) throw unfit("is larger than 50 MB");
  const [first = "", ...lines] = text.replace(/^\uFEFF/, "").split(/\r?\n/);
  const expected = countIn(parsed(first));
  const events = new Map<number, StoredEvent>();
  const refused: string[] = [];
  for (const [i, line] of lines.entries()) {
    if (line === "") continue;
    const event = await soundEvent(parsed(line));
    if (event) events.set(i + 2, event);
    else refused.push(`Line ${i + 2} is damaged and was left out.`);
  }
  const found = events.size + refused.length;
  if (found < expected)
    refused.push(`The file is cut off: of ${expected} entries it holds ${found}.`);
  return { events, refused };
}

function countIn(value: unknown): number {
  const { footwell, format, count } = fieldsOf(value);
  if (footwell !== "events") throw unfit("is not an export of Footwell");
  if (format !== FILE_FORMAT)
    throw unfit("was made by a newer Footwell; update this one, then import it");
  return isCount(count) ? count : 0;
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

const unfit = (reason: string): StorageProblem =>
  new StorageProblem("unfit", `Nothing was imported: this file ${reason}.`);
