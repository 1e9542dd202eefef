/** The answers of the vehicle that is not there. */

import { practising } from "../../app/facts";
import { attempt, events } from "../../app/job";
import { ports } from "../../app/ports";
import type { Check, Controls, PositionsTried } from "../../app/types";
import { withPresence } from "../check/state";
import { keepChoice, keepTyped } from "../pad/keep";

/** Takes the reading of a check and keeps it as if it had been typed. */
export async function measure(check: Check): Promise<void> {
  const request = { events: events.value, record: withPresence(check.record) };
  const job = practising.value;
  const answer = await attempt(() => ports().core.call("practice_answer", request));
  if (!answer || !job) return;
  if (answer.choice) await attempt(() => keepChoice(check, answer.choice ?? "", job));
  else {
    const typing = { job, check, typed: answer.typed ?? "", unit: answer.unit ?? "" };
    await attempt(() => keepTyped(typing, true));
  }
}

/** What the loads do in the positions asked for. */
export async function tryPositions(asked: Controls[]): Promise<PositionsTried["states"]> {
  const request = { events: events.value };
  const answer = await attempt(() => ports().core.call("practice_answer", request));
  const wanted = new Set(asked.map(keyOf));
  return (answer?.states ?? []).filter(({ controls }) => wanted.has(keyOf(controls)));
}

const keyOf = (controls: Controls) => JSON.stringify(Object.entries(controls).sort());

/** The wires that sit in the ways of a connector's half. */
export async function lookInside(connector: string, half: string) {
  const request = { events: events.value, connector, half };
  const answer = await attempt(() => ports().core.call("practice_answer", request));
  return answer?.found ?? null;
}
