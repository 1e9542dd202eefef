/** The job that is open: its events, what the core makes of them, and the one way to add to it. */

import { computed, signal } from "@preact/signals";
import { ownRelease } from "../offline";
import { CallError } from "../worker/errors";
import { keep, recall } from "./keep";
import { ports } from "./ports";
import { go, route } from "./route";
import type { Entry, Event, JobView } from "./types";

/**
 * What is held of one job. `viewed` is how many events the view was made from; `kept` says that it is
 * an earlier page's and not yet the core's answer to this one.
 */
interface Held {
  job: string;
  events: Event[];
  view: JobView | null;
  viewed: number;
  kept: boolean;
}

const held = signal<Held | null>(null);

export const jobId = computed(() => (route.value.screen === "job" ? route.value.job : null));

/** What is held of the job that is open; never that of another one. */
const here = computed(() => (held.value?.job === jobId.value ? held.value : null));

export const events = computed<Event[]>(() => here.value?.events ?? []);
export const view = computed<JobView | null>(() => here.value?.view ?? null);
/** The view does not know the newest events yet. */
export const stale = computed(() => here.value?.viewed !== here.value?.events.length);
/** Time of the last event known to be stored. */
export const savedAt = computed(() => events.value.at(-1)?.at ?? "");
/** What is being worked out just now; empty when nothing is. A store still opening has the job to come. */
export const working = computed(() => atWork.value || (isToCome() ? OPENING : ""));
const atWork = signal("");
const isToCome = () => jobId.value !== null && ports().store.state.value === "opening";
const OPENING = "Working out what to measure…";
const NEXT = "Working out what to measure next…";
/** Why the last action came to nothing; empty when it did not. */
export const trouble = signal("");
/** What else is wrong with what the last action brought. */
export const troubles = signal<string[]>([]);

let running = false;
let again = "";

export async function openJob(job: string): Promise<void> {
  if (held.value?.job === job) return;
  // Said before the events are fetched: a key that stands meanwhile would be taken away under the thumb.
  atWork.value = OPENING;
  const stored = await attempt(() => ports().store.events(job));
  if (!stored || jobId.value !== job) {
    if (!running && atWork.value === OPENING) atWork.value = "";
    return;
  }
  if (stored.length === 0) {
    leaveErased();
    return;
  }
  const view = keptView(job, stored.length);
  held.value = { job, events: stored, view, viewed: view ? stored.length : 0, kept: view !== null };
  await look(OPENING);
}

/** What is held of a job goes, before the job is erased: work on it that ends later is for nobody. */
export function leaveJob(): void {
  held.value = null;
}

/** Nothing is to be done on a job that is gone, and the browser's way back may still lead to it. */
function leaveErased(): void {
  leaveJob();
  if (!running) atWork.value = "";
  go({ screen: "jobs" }, true);
}

/** Another tab may have added to the job that is open, or erased it. */
export async function refreshJob(job: string): Promise<void> {
  const stored = await ports()
    .store.events(job)
    .catch(() => null);
  const now = held.value;
  if (!stored || now?.job !== job || jobId.value !== job) return;
  if (stored.length === 0 && now.events.length > 0) {
    leaveErased();
  } else if (stored.length > now.events.length) {
    held.value = { ...now, events: stored };
    await look(OPENING);
  }
}

/** Stores the entries of one action, all or none, then asks the core again. False where storing failed. */
export async function record(entries: Entry[], saying = NEXT): Promise<boolean> {
  return jobId.value ? recordIn(jobId.value, entries, saying) : false;
}

/** The same for a job that may have been left since: whoever waits before storing names the job first. */
export async function recordIn(job: string, entries: Entry[], saying = NEXT): Promise<boolean> {
  const wanted = entries.map((entry) => ({ job, ...entry }));
  const stored = await attempt(() => ports().store.appendMany(wanted, job));
  if (!stored) return false;
  const now = held.value;
  if (now?.job !== job) return true;
  held.value = { ...now, events: [...now.events, ...stored] };
  void look(saying);
  return true;
}

/** Stores a change of the sheet that the core has found possible. One that cannot be is told and not stored. */
export async function recordChange(entry: Entry): Promise<boolean> {
  const request = {
    events: events.value,
    kind: entry.kind as "sheet edited" | "place found" | "wire followed",
    body: JSON.stringify(entry.body),
  };
  const job = jobId.value;
  const can = await attempt(() => ports().core.call("entry_try", request));
  return can !== null && job !== null && recordIn(job, [entry]);
}

/** Asks the core for the view of the newest events. A look under way is followed by one more, not by many. */
export async function look(saying: string): Promise<void> {
  atWork.value = saying;
  if (running) {
    again = saying;
    return;
  }
  running = true;
  const asked = held.value;
  if (asked) {
    const view = () => ports().core.call("look", { events: asked.events });
    accept(asked, await unasked(view));
  }
  running = false;
  const next = again;
  again = "";
  if (next) await look(next);
  else atWork.value = "";
}

/** Python was started again after it had failed: what was recorded meanwhile is counted now. */
export async function catchUp(): Promise<void> {
  if (held.value && !running && (stale.value || held.value.kept)) await look(OPENING);
}

function accept({ job, events }: Held, answer: JobView | null): void {
  const now = held.value;
  if (!answer || now?.job !== job) return;
  held.value = { ...now, view: answer, viewed: events.length, kept: false };
  void keepView({ release: ownRelease(), job, events: events.length, view: answer });
}

/** Only the release that made it knows its shape: another one makes its own from the events. */
interface KeptView {
  release: string | undefined;
  job: string;
  events: number;
  view: JobView;
}

/** A job erased in another tab meanwhile takes what is kept now along, or is found to be gone here. */
async function keepView(kept: KeptView): Promise<void> {
  keep("view", kept);
  const stored = await ports()
    .store.events(kept.job)
    .catch(() => null);
  if (stored?.length === 0) keep("view", null);
}

/** The last view of a job, so that its step stands before Python does. */
function keptView(job: string, count: number): JobView | null {
  const kept = recall<KeptView>("view");
  const isOurs = kept?.release === ownRelease() && kept?.job === job && kept.events === count;
  return isOurs ? (kept.view ?? null) : null;
}

/**
 * Takes a kept view from the screen that could not be drawn with it: the events are enough to make it
 * anew. False where the screen was not drawn from one.
 */
export function dropKeptView(): boolean {
  if (!held.value?.kept) return false;
  keep("view", null);
  held.value = { ...held.value, view: null, viewed: 0, kept: false };
  return true;
}

/** Runs what a person asked for; a failure becomes a sentence under `trouble`, until the next is asked for. */
export async function attempt<T>(act: () => Promise<T>): Promise<T | null> {
  tell();
  try {
    return await act();
  } catch (error) {
    tell(error);
    return null;
  }
}

/** What the last of `unasked` that failed came to. */
let ofUnasked = "";

/**
 * Runs what the page does of itself. It takes away or overwrites what an earlier run came to, and nothing
 * that a person's action came to meanwhile.
 */
export async function unasked<T>(act: () => Promise<T>): Promise<T | null> {
  const isFree = () => trouble.value === "" || trouble.value === ofUnasked;
  try {
    const answer = await act();
    if (isFree()) tell();
    return answer;
  } catch (error) {
    if (!isFree()) return null;
    tell(error);
    ofUnasked = trouble.value;
    return null;
  }
}

function tell(error?: unknown): void {
  trouble.value = error === undefined ? "" : sentenceOf(error);
  troubles.value = listedIn(error);
}

/** What is listed of a sheet or a wiring list that was refused, but for what its sentence says already. */
export function listedIn(error: unknown): string[] {
  if (!(error instanceof CallError) || !["bad_sheet", "bad_list"].includes(error.code)) return [];
  const listed = Array.isArray(error.details) ? error.details.map(String) : [];
  return listed.filter((each) => !error.sentence.includes(each));
}

function sentenceOf(error: unknown): string {
  // A Python that does not run is a state, which the screen tells as long as it lasts.
  if (error instanceof CallError && error.code === "no_python") return "";
  return error instanceof Error && error.message
    ? error.message
    : "Something failed here that has no name yet. What was saved stays saved.";
}
