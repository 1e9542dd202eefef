import { fieldsOf, parsed } from "./foreign";

/** How many entries of each job are in a file that was handed over: what erasing would lose is the rest. */
const KEY = "footwell.exported";

export function exportedCounts(): Map<string, number> {
  try {
    const kept = fieldsOf(parsed(localStorage.getItem(KEY) ?? ""));
    return new Map(
      Object.entries(kept).flatMap(([job, n]) => (typeof n === "number" ? [[job, n]] : [])),
    );
  } catch {
    // Refused: as if nothing had been exported, which only warns too often.
    return new Map();
  }
}

export function noteExportOf(jobs: readonly { id: string; count: number }[]): void {
  const counts = exportedCounts();
  for (const { id, count } of jobs) counts.set(id, count);
  try {
    localStorage.setItem(KEY, JSON.stringify(Object.fromEntries(counts)));
  } catch {
    // As above.
  }
}

const OWN = "footwell.";
const OF_THE_PHONE = ["theme", "hand"].map((name) => OWN + name);

/** Forget all that is kept beside the database and bears on a job, or on any job: views, drafts, links. */
export function forgetKept(job?: string): void {
  try {
    for (const key of Object.keys(localStorage)) {
      if (!key.startsWith(OWN) || OF_THE_PHONE.includes(key)) continue;
      if (job === undefined || key.includes(job)) localStorage.removeItem(key);
      else if (key === KEY) forgetExportOf(job);
      else if (localStorage.getItem(key)?.includes(job)) localStorage.removeItem(key);
    }
  } catch {
    // Refused storage holds nothing.
  }
}

function forgetExportOf(job: string): void {
  const counts = exportedCounts();
  counts.delete(job);
  localStorage.setItem(KEY, JSON.stringify(Object.fromEntries(counts)));
}
