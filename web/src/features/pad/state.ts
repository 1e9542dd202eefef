/** The reading being typed: survives a reload until it is kept. */

import { draft } from "../../app/draft";
import { jobId } from "../../app/job";
import { show } from "../../app/route";
import type { Check } from "../../app/types";

export interface Typing {
  job: string;
  check: Check;
  typed: string;
  unit: string;
}

export const typing = draft<Typing | null>("pad", null);

/** Opens the pad for a check; what was typed for the same check is still there. */
export function openPad(check: Check): void {
  const before = typing.value.value;
  const job = jobId.value ?? "";
  if (before?.job !== job || before.check.id !== check.id)
    typing.set({ job, check, typed: "", unit: check.units[0] ?? "" });
  show("pad");
}

const LONGEST = 12;

/** The typed text after one more key. */
export function afterKey(typed: string, key: string): string {
  if (key === "delete") return typed.slice(0, -1);
  if (key === "sign") return typed.startsWith("-") ? typed.slice(1) : `-${typed}`;
  if (typed.length >= LONGEST) return typed;
  if (key !== ".") return typed + key;
  if (typed.includes(".")) return typed;
  return /\d$/.test(typed) ? `${typed}.` : `${typed}0.`;
}

export function press(key: string): void {
  const now = typing.value.value;
  if (now) typing.set({ ...now, typed: afterKey(now.typed, key) });
}

export function setUnit(unit: string): void {
  const now = typing.value.value;
  if (now) typing.set({ ...now, unit });
}
