/** The complaint while it is being told, and the events it becomes. */

import { story, tools } from "../../app/facts";
import { helper, instruments } from "../../app/prefs";
import type { Entry, JobView, StoryTold } from "../../app/types";
import { allDead, askedOf, keyOf, statesOf, type Told } from "../positions/state";

export interface Complaint {
  told: Told;
  now: StoryTold["dead_now"] | null;
  /** Of a ready answer; a draft of an older release has none. */
  engine?: ReadyAnswer["engine"];
}

export type ReadyAnswer = JobView["complaints"][number];

/** What a ready answer says, in place of what was told before. */
export const toldBy = ({ states }: ReadyAnswer): Told =>
  Object.fromEntries(states.map(({ controls, load, state }) => [keyOf(controls, load), state]));

/** Whether what is told is just what a ready answer says. */
export function isTold(answer: ReadyAnswer, complaint: Complaint): boolean {
  const says = Object.entries(toldBy(answer));
  return (
    (complaint.engine ?? "off") === answer.engine &&
    says.length === Object.keys(complaint.told).length &&
    says.every(([key, state]) => complaint.told[key] === state)
  );
}

/** Nothing works in any position that is asked. */
export const deadOf = (view: JobView): Complaint => ({
  ...nothingTold,
  told: allDead(askedOf(view)),
  engine: "off",
});

/** Whether a ready answer says of everything that it is dead, in words of the circuit's own. */
export const isDeadSaid = (view: JobView): boolean =>
  view.complaints.some((answer) => isTold(answer, deadOf(view)));

export const nothingTold: Complaint = { told: {}, now: null };

/** The events of "Start": what is at hand, the sitting, what the customer says. */
export function entriesOf(complaint: Complaint, view: JobView): Entry[] {
  const states = statesOf(complaint.told, askedOf(view));
  const entries: Entry[] = [{ kind: "sitting begun", body: { engine: complaint.engine ?? "off" } }];
  if (!tools.value)
    entries.push({
      kind: "tools stated",
      body: { instruments: instruments.value, helper: helper.value },
    });
  if (complaint.now)
    entries.push({ kind: "story told", body: { ...story.value, dead_now: complaint.now } });
  if (states.length > 0)
    entries.push({ kind: "positions tried", body: { seen_by: "customer", states } });
  return entries;
}
