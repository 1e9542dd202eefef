import { LONGEST_BODY, type Origin, type StoredEvent, sha256 } from "./event";
import { StorageProblem } from "./problems";

/** The file of events: a heading, then one event a line, each body as the text it is. */
const FILE_FORMAT = 1;

/** Far above any phone's work; a larger file would only exhaust the phone. */
const LONGEST_FILE = 50_000_000;

/** An entry of a file that was left out, and why. */
export interface Refusal {
  readonly line: number;
  readonly reason: string;
}

interface FileRead {
  /** By the number of their line. */
  readonly events: Map<number, StoredEvent>;
  readonly refusals: Refusal[];
}

export function fileOf(events: readonly StoredEvent[]): string {
  const heading = { footwell: "events", format: FILE_FORMAT, count: events.length };
  return [heading, ...events].map((line) => `${JSON.stringify(line)}\n`).join("");
}

/** The sound entries of a file; damaged ones are told, and do not stand in the way of the others. */
export async function readFile(text: string): Promise<FileRead> {
  if (text.length > LONGEST_FILE) throw unfit("is larger than 50 MB");
  const [first = "", ...lines] = text.replace(/^\uFEFF/, "").split(/\r?\n/);
  const expected = countIn(parsed(first));
  const events = new Map<number, StoredEvent>();
  const refusals: Refusal[] = [];
  for (const [i, line] of lines.entries()) {
    if (line === "") continue;
    const event = await soundEvent(parsed(line));
    if (event) events.set(i + 2, event);
    else refusals.push({ line: i + 2, reason: "is damaged" });
  }
  const absent = expected - events.size - refusals.length;
  if (absent > 0) refusals.push({ line: lines.length + 1, reason: `is the last; ${absent} more entries were cut off` });
  return { events, refusals };
}

function countIn(heading: unknown): number {
  if (!isRecord(heading) || heading.footwell !== "events") throw unfit("is not an export of Footwell");
  if (heading.format !== FILE_FORMAT) throw unfit("was made by a newer Footwell; update this one first, then import it");
  return typeof heading.count === "number" ? heading.count : 0;
}

/** Built field by field: keys of a stranger's file never reach our objects. */
async function soundEvent(value: unknown): Promise<StoredEvent | undefined> {
  if (!isRecord(value)) return undefined;
  const { device, n, job, kind, format, at, body, sha256: hash, origin } = value;
  if (!isName(device, 64) || !isCount(n) || !isName(job, 64) || !isName(kind, 40) || !isCount(format)) return undefined;
  if (typeof at !== "string" || at.length > 40 || typeof body !== "string" || body.length > LONGEST_BODY) return undefined;
  if (hash !== (await sha256(body))) return undefined;
  const event = { device, n, job, kind, format, at, body, sha256: hash };
  if (origin === undefined) return event;
  const first = soundOrigin(origin);
  return first && { ...event, origin: first };
}

function soundOrigin(value: unknown): Origin | undefined {
  if (!isRecord(value) || !isName(value.device, 64) || !isCount(value.n)) return undefined;
  return { device: value.device, n: value.n };
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;
const isName = (value: unknown, longest: number): value is string =>
  typeof value === "string" && value !== "" && value.length <= longest;
const isCount = (value: unknown): value is number => Number.isInteger(value) && Number(value) >= 1 && Number(value) <= 1e9;

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}

const unfit = (reason: string): StorageProblem =>
  new StorageProblem("unfit", `Nothing was imported: this file ${reason}.`);
