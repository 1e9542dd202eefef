/** Keeping a reading: weighed first where Python is there, as typed where it is not. */

import { events, record as store } from "../../app/job";
import { inBaseUnit, shown } from "../../app/number";
import { ports } from "../../app/ports";
import { go, route } from "../../app/route";
import type { Check, ReadingTaken, Weighed } from "../../app/types";
import { forgetChoice, withPresence } from "../check/state";
import { verdict } from "../verdict/state";
import { type Typing, typing } from "./state";
import { words } from "./words";

/** What stands in the way of a typed reading; null once it is kept. */
export type Doubt = { refuse: string } | { ask: Weighed };

export async function keepTyped(now: Typing, sure: boolean): Promise<Doubt | null> {
  const { check, typed, unit } = now;
  const text = `${shown(typed)} ${unit}`;
  const plain = withPresence(check.record);
  if (ports().core.state.value.state !== "ready")
    return keepAsTyped(check, plain, typed, unit, text);
  const asks = { events: events.value, record: plain, typed, unit };
  const weighed = await ports().core.call("weigh", asks);
  if (weighed.refuse) return { refuse: weighed.refuse };
  if (weighed.ask && !sure) return { ask: weighed };
  if (weighed.record) await keep(check, weighed.record, text, weighed.verdict);
  return null;
}

async function keepAsTyped(
  check: Check,
  plain: ReadingTaken,
  typed: string,
  unit: string,
  text: string,
): Promise<Doubt | null> {
  const value = inBaseUnit(typed, unit);
  if (value === null) return { refuse: words.noNumber };
  await keep(check, { ...plain, value, typed: `${typed} ${unit}` }, text, words.unweighed);
  return null;
}

/** Keeps an answer given as a word. */
export function keepChoice(check: Check, choice: string): Promise<void> {
  const plain = withPresence(check.record);
  const said = judge(check, choice);
  const shownThen = plain.shown ? { ...plain.shown, verdict: said } : plain.shown;
  return keep(
    check,
    { ...plain, choice, ...(shownThen ? { shown: shownThen } : {}) },
    choice,
    said,
  );
}

function judge(check: Check, choice: string): string {
  if (check.healthy_choice === "") return words.noted;
  return choice === check.healthy_choice ? words.asExpected : words.notAsExpected;
}

async function keep(check: Check, record: ReadingTaken, text: string, said: string): Promise<void> {
  const stored = await store([{ kind: "reading taken", body: record }]);
  if (!stored || route.value.screen !== "job") return;
  verdict.set({
    job: route.value.job,
    text,
    said,
    expected: check.band?.text ?? check.healthy_choice,
    where: check.do,
  });
  typing.clear();
  forgetChoice();
  go({ ...route.value, show: "work" }, true);
}
