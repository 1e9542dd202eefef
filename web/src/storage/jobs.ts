import type { Database } from "./database";
import { isErased } from "./erase";
import { inOrder, type StoredEvent } from "./event";
import { fieldsOf, isName, parsed, told } from "./foreign";

/** A job as the list of jobs shows it. */
export interface JobSummary {
  readonly id: string;
  readonly title: string;
  readonly vehicle: string;
  readonly count: number;
  /** Time of the last event, for display. */
  readonly lastAt: string;
}

export async function storedEvents(db: Database, job?: string): Promise<StoredEvent[]> {
  const arrived =
    job === undefined ? db.getAll("events") : db.getAllFromIndex("events", "job", job);
  return inOrder(await arrived);
}

/** All jobs, the one that was last added to first. */
export async function summaries(db: Database): Promise<JobSummary[]> {
  const found = await Promise.all((await jobIds(db)).map((id) => summary(db, id)));
  return found
    .filter(({ erased }) => !erased)
    .sort((a, b) => b.arrival - a.arrival)
    .map(({ shown }) => shown);
}

async function jobIds(db: Database): Promise<string[]> {
  const ids: string[] = [];
  const index = db.transaction("events").store.index("job");
  for (let at = await index.openKeyCursor(null, "nextunique"); at; at = await at.continue())
    ids.push(at.key);
  return ids;
}

interface Found {
  readonly arrival: number;
  readonly erased: boolean;
  readonly shown: JobSummary;
}

async function summary(db: Database, id: string): Promise<Found> {
  const jobs = db.transaction("events").store;
  const [opened, count, last] = await Promise.all([
    jobs.index("kind").get([id, "job opened"]),
    jobs.index("job").count(id),
    jobs.index("job").openCursor(id, "prev"),
  ]);
  const erased = last !== null && isErased(last.value);
  const shown = { id, ...heading(opened), count, lastAt: last?.value.at ?? "" };
  return { arrival: last?.primaryKey ?? 0, erased, shown };
}

/** Title and vehicle from the body of "job opened", which may come from a stranger or a later release. */
function heading(opened: StoredEvent | undefined): { title: string; vehicle: string } {
  const { title, sheet } = fieldsOf(parsed(opened?.body ?? ""));
  const { vehicle } = fieldsOf(sheet);
  return {
    title: isName(title, 120) ? told(title) : "Job without a title",
    vehicle: isName(vehicle, 120) ? told(vehicle) : "",
  };
}
