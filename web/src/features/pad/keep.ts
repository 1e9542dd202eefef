/** Keeping a reading: weighed first where Python is there, as typed where it is not. */

import { events, jobId, recordIn } from "../../app/job";
import { inBaseUnit, shown } from "../../app/number";
import { ports } from "../../app/ports";
import { go, route } from "../../app/route";
import type { Check, ReadingTaken, Weighed } from "../../app/types";
import { forgetChoiceOf, withPresence } from "../check/state";
import { type Kept, verdict } from "../verdict/state";
import { type Typing, typing } from "./state";
import { words } from "./words";

/** What stands in the way of a typed reading; null once it is kept. */
export type Doubt = { refuse: string } | { ask: Weighed };

export async function keepTyped(now: Typing, sure: boolean): Promise<Doubt | null> {
  const weighed = await weigh(now);
  if (!weighed) return keepAsTyped(now);
  if (weighed.ask && !sure) return { ask: weighed };
  if (weighed.refuse) return { refuse: weighed.refuse };
  const { record } = weighed;
  if (record) await keep(now, record, said(now, weighed.verdict, fits(now)));
  return null;
}

/** Null where Python cannot weigh: a reading is never lost over that. */
async function weigh({ check, typed, unit }: Typing): Promise<Weighed | null> {
  const { core } = ports();
  if (core.state.value.state !== "ready") return null;
  const record = withPresence(check.record);
  return core.call("weigh", { events: events.value, record, typed, unit }).catch(() => null);
}

async function keepAsTyped(now: Typing): Promise<Doubt | null> {
  const { check, typed, unit } = now;
  const value = inBaseUnit(typed, unit);
  if (value === null) return { refuse: words.noNumber };
  const record = { ...withPresence(check.record), value, typed: `${typed} ${unit}` };
  await keep(now, record, said(now, words.unweighed, null));
  return null;
}

type Said = Pick<Kept, "text" | "said" | "fits">;

const said = ({ typed, unit }: Typing, verdict: string, fits: boolean | null): Said => ({
  text: `${shown(typed)} ${unit}`,
  said: verdict,
  fits,
});

/** The typed reading in the unit of the check's band. */
export function inBand({ check, typed, unit }: Typing): number | null {
  const value = inBaseUnit(typed, unit);
  const one = inBaseUnit("1", check.band?.unit ?? "");
  return value === null || one === null ? null : value / one;
}

/** Whether the typed reading lies in the expected band; null where there is none. */
function fits(now: Typing): boolean | null {
  const { band } = now.check;
  const value = inBand(now);
  if (!band || value === null) return null;
  return [band, ...band.others].some(({ low, high }) => value >= low && value <= high);
}

/** Keeps an answer given as a word, in the job that is open or in the one it was asked for. */
export async function keepChoice(check: Check, choice: string, job = jobId.value): Promise<void> {
  if (job === null) return;
  const told = judge(check, choice);
  const plain = { ...withPresence(check.record), choice };
  const record = plain.shown ? { ...plain, shown: { ...plain.shown, verdict: told.said } } : plain;
  await keep({ job, check }, record, { text: choice, ...told });
}

function judge({ healthy_choice }: Check, choice: string): Omit<Said, "text"> {
  if (healthy_choice === "") return { said: words.noted, fits: null };
  const fits = choice === healthy_choice;
  return { said: fits ? words.asExpected : words.notAsExpected, fits };
}

/** The job may have been left while the reading was weighed: what stands open now is not touched then. */
async function keep(
  { job, check }: Pick<Typing, "job" | "check">,
  record: ReadingTaken,
  told: Said,
): Promise<void> {
  if (!(await recordIn(job, [{ kind: "reading taken", body: record }]))) return;
  if (typing.value.value?.job === job) typing.clear();
  forgetChoiceOf(job);
  if (route.value.screen !== "job" || route.value.job !== job) return;
  const expected = check.band?.text ?? check.healthy_choice;
  verdict.set({ job, ...told, expected, where: check.do });
  go({ ...route.value, show: "work" }, true);
}
