/** Which value is asked about; kept, so that the answer stands again after a reload. */

import { draft } from "../../app/draft";
import { jobId } from "../../app/job";
import { show } from "../../app/route";
import type { Check, ReadingTaken } from "../../app/types";

interface Asked {
  job: string;
  record: ReadingTaken;
  /** The value as it was shown with the check. */
  expected: string;
}

export const asked = draft<Asked | null>("why", null);

/** Opens the explanation of what a check should read. */
export function askWhy({ record, band, healthy_choice }: Check): void {
  if (!jobId.value) return;
  asked.set({ job: jobId.value, record, expected: band ? band.text : healthy_choice });
  show("why");
}
