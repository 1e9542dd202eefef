/** The job that is open: its events, what the core makes of them, and the one way to add to it. */

import { computed, signal } from "@preact/signals";
import { keep, recall } from "./keep";
import { ports } from "./ports";
import type { Entry, Event, JobView } from "./types";

export const jobId = signal<string | null>(null);
export const events = signal<Event[]>([]);
export const view = signal<JobView | null>(null);
/** How many events the view was made from. */
const viewedEvents = signal(0);
/** The view does not know the newest events yet. */
export const stale = computed(() => viewedEvents.value !== events.value.length);
/** What is being worked out just now; empty when nothing is. */
export const working = signal("");
/** Why the last action came to nothing; empty when it did not. */
export const trouble = signal("");
/** Time of the last event known to be stored. */
export const savedAt = computed(() => events.value.at(-1)?.at ?? "");

interface KeptView {
  job: string;
  events: number;
  view: JobView;
}

export async function openJob(id: string): Promise<void> {
  if (jobId.value === id) return;
  jobId.value = id;
  events.value = [];
  accept(null, 0);
  const stored = await attempt(() => ports().store.events(id));
  if (!stored || jobId.value !== id) return;
  events.value = stored;
  accept(keptView(id, stored.length), stored.length);
  await look("Working out what to measure…");
}

/** Stores the entries of one action, all or none, then asks the core again. False where storing failed. */
export async function record(
  entries: Entry[],
  saying = "Working out what to measure next…",
): Promise<boolean> {
  const id = jobId.value;
  if (!id) return false;
  const wanted = entries.map((entry) => ({ job: id, ...entry }));
  const stored = await attempt(() => ports().store.appendMany(wanted));
  if (!stored) return false;
  if (jobId.value === id) events.value = [...events.value, ...stored];
  void look(saying);
  return true;
}

let running = false;
let again = "";

/** Asks the core for the view of the newest events. A look under way is followed by one more, not by many. */
export async function look(saying: string): Promise<void> {
  working.value = saying;
  if (running) {
    again = saying;
    return;
  }
  running = true;
  const asked = events.value;
  const id = jobId.value;
  const answer =
    asked.length > 0 ? await attempt(() => ports().core.call("look", { events: asked })) : null;
  running = false;
  if (answer && jobId.value === id) {
    accept(answer, asked.length);
    keep("view", { job: id, events: asked.length, view: answer });
  }
  const next = again;
  again = "";
  if (next) await look(next);
  else working.value = "";
}

function accept(next: JobView | null, count: number): void {
  view.value = next;
  viewedEvents.value = next ? count : 0;
}

/** The last view of a job, so that its step stands before Python does. */
function keptView(id: string, count: number): JobView | null {
  const kept = recall<KeptView>("view");
  return kept && kept.job === id && kept.events === count ? kept.view : null;
}

/** Runs `act`; a failure becomes a sentence under `trouble`. */
export async function attempt<T>(act: () => Promise<T>): Promise<T | null> {
  try {
    const answer = await act();
    trouble.value = "";
    return answer;
  } catch (error) {
    trouble.value = sentenceOf(error);
    return null;
  }
}

function sentenceOf(error: unknown): string {
  if (error instanceof Error && error.message) return error.message;
  return "Something failed here that has no name yet. What was saved stays saved.";
}
