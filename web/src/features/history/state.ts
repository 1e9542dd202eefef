/** Undo, and undo of an undo: both are events. */

import { computed } from "@preact/signals";
import { lastWithdrawal } from "../../app/facts";
import { record, view } from "../../app/job";
import type { ReadingView } from "../../app/types";

const SAYING = "Working it out without that…";

/** The newest thing that can be undone. */
export const lastDone = computed<ReadingView | null>(
  () => view.value?.history.findLast((line) => line.can_withdraw && !line.withdrawn) ?? null,
);

export function withdraw({ device, n }: { device: string; n: number }): Promise<boolean> {
  return record([{ kind: "event withdrawn", body: { device, n } }], SAYING);
}

/** Brings back what the last undo took away, as long as nothing was done since. */
export function bringBack(): Promise<boolean> {
  return lastWithdrawal.value ? withdraw(lastWithdrawal.value) : Promise.resolve(false);
}

/** What came after a line and is worked out anew when the line is withdrawn. */
export function after(line: ReadingView): ReadingView[] {
  const history = view.value?.history ?? [];
  const at = history.findIndex((other) => other.device === line.device && other.n === line.n);
  return history.slice(at + 1).filter((other) => !other.withdrawn);
}
