/** Which check is being done when it is not the proposed one, and whether the complaint is there. */

import { computed } from "@preact/signals";
import { draft } from "../../app/draft";
import { story } from "../../app/facts";
import { jobId } from "../../app/job";
import { show } from "../../app/route";
import type { Check, ReadingTaken } from "../../app/types";

const kept = draft<{ job: string; check: Check } | null>("chosen", null);

/** The check the person chose instead of the proposed one. */
export const chosen = computed(() => {
  const now = kept.value.value;
  return now && now.job === jobId.value ? now.check : null;
});

export function choose(check: Check): void {
  if (!jobId.value) return;
  kept.set({ job: jobId.value, check });
  show("work");
}

export const forgetChoice = () => kept.clear();

/** The same where it was chosen for this job, which may have been left since. */
export function forgetChoiceOf(job: string): void {
  if (kept.value.value?.job === job) kept.clear();
}

export type Presence = "present" | "absent";

/** Is the complaint there right now; null while nobody has said. */
export const presence = draft<Presence | null>("presence", null);

/** The complaint must be asked for at every reading. */
export const comesAndGoes = computed(() => story.value?.dead_now === "comes and goes");

/** The check's record with what the person said about the complaint. */
export function withPresence(record: ReadingTaken): ReadingTaken {
  if (!comesAndGoes.value) return record;
  return { ...record, complaint: presence.value.value ?? "unknown" };
}
