/** The steps of the circuit that is being built: kept on the phone, shown as the core makes them. */

import { useEffect, useRef, useState } from "preact/hooks";
import { draft } from "../../app/draft";
import { attempt } from "../../app/job";
import { ports } from "../../app/ports";
import type { Building, BuildView, JobOpened } from "../../app/types";
import type { Refusal } from "../../app/ui/Told";
import { openJobOn } from "../newjob/library";

export type Step = Building["steps"][number];

interface Kept {
  volts: Building["volts"];
  steps: Step[];
  /** The job that was opened on what stands: erasing it takes the steps along. */
  job?: string;
}

export const kept = draft<Kept>("builder", { volts: 12, steps: [] });

export const isBegun = () => kept.value.value.steps.length > 0;

/** Opens a job on what stands. The steps stay, to go on building. */
export async function openBuilt(title: string, sheet: JobOpened["sheet"]): Promise<string> {
  const job = await openJobOn(title, sheet);
  kept.set({ ...kept.value.value, job });
  return job;
}

/** What stands, the acts that change it, and why the last one could not be. Acts answer whether they could. */
export function useBuilding() {
  const [view, setView] = useState<BuildView | null>(null);
  const [refused, setRefused] = useState<Refusal | null>(null);
  const ask = async (next: Kept, mustBe: boolean) => {
    const { volts, steps } = next;
    const answer = await attempt(() => ports().core.call("build", { volts, steps }));
    if (!answer) return false;
    setRefused(answer.refused ? { sentence: answer.refused } : null);
    if (answer.refused && mustBe) return false;
    kept.set(next);
    setView(answer);
    return true;
  };
  useEffect(() => {
    void ask(kept.value.value, false);
  }, []);
  const inTurn = useInTurn();
  const change = (name: string, to: (now: Kept) => Kept, mustBe = false) =>
    inTurn(name, () => ask(to(kept.value.value), mustBe));
  return {
    view,
    refused,
    forgetRefused: () => setRefused(null),
    step: (step: Step) =>
      change(
        JSON.stringify(step),
        ({ volts, steps }) => ({ volts, steps: [...steps, step] }),
        true,
      ),
    undo: () => change("undo", ({ volts, steps }) => ({ volts, steps: steps.slice(0, -1) })),
    setVolts: (volts: Kept["volts"]) => change(`${volts}`, ({ steps }) => ({ volts, steps })),
  };
}

/** Acts one after another; the same once more before it is done is a double tap, and is let pass. */
function useInTurn() {
  const turn = useRef({ name: "", done: Promise.resolve(false) });
  return (name: string, act: () => Promise<boolean>): Promise<boolean> => {
    if (name === turn.current.name) return Promise.resolve(false);
    const done = turn.current.done.then(act).finally(() => {
      if (turn.current.done === done) turn.current.name = "";
    });
    turn.current = { name, done };
    return done;
  };
}
