/** Plain facts read straight from the stored events, known before Python is. */

import { computed } from "@preact/signals";
import { standingOf } from "../storage";
import { events, jobId } from "./job";
import type { Bodies, Event, EventWithdrawn, Kind } from "./types";

export function bodyOf<K extends Kind>(event: Event, kind: K): Bodies[K] | null {
  if (event.kind !== kind) return null;
  try {
    return JSON.parse(event.body) as Bodies[K];
  } catch {
    return null;
  }
}

/** The events that still count, withdrawals left out. */
export const standing = computed(() => standingOf(events.value));

function last<K extends Kind>(kind: K): Bodies[K] | null {
  const found = standing.value.findLast((event) => event.kind === kind);
  return found ? bodyOf(found, kind) : null;
}

export const opened = computed(() => last("job opened"));
export const story = computed(() => last("story told"));
/** The job that is open, where it is one to practise on; else null. */
export const practising = computed(() => (last("practice begun") ? jobId.value : null));
export const tools = computed(() => last("tools stated"));
export const sitting = computed(() => last("sitting begun"));

/** Hazards whose caution was passed in this sitting. */
export const passed = computed(() => {
  const since = standing.value.findLastIndex((event) => event.kind === "sitting begun");
  const bodies = standing.value.slice(since + 1).map((event) => bodyOf(event, "caution passed"));
  return new Set(bodies.flatMap((body) => (body ? [body.hazard] : [])));
});

/** The last withdrawal that can be taken back: nothing was done after it. */
export const lastWithdrawal = computed<EventWithdrawn | null>(() => {
  const newest = events.value.at(-1);
  return newest?.kind === "event withdrawn" ? { device: newest.device, n: newest.n } : null;
});
