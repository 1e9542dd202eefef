/** The reading that was kept last, until the person goes on. */

import { computed } from "@preact/signals";
import { draft } from "../../app/draft";
import { jobId } from "../../app/job";

export interface Kept {
  job: string;
  text: string;
  said: string;
  /** Inside what was expected; null where nothing was. */
  fits: boolean | null;
  expected: string;
  where: string;
}

const kept = draft<Kept | null>("verdict", null);

export const verdict = Object.assign(
  computed(() => (kept.value.value?.job === jobId.value ? kept.value.value : null)),
  { set: kept.set, clear: kept.clear },
);
