/** The steps of the circuit that is being built: kept on the phone, shown as the core makes them. */

import { useEffect, useState } from "preact/hooks";
import { draft } from "../../app/draft";
import { attempt } from "../../app/job";
import { ports } from "../../app/ports";
import type { Building, BuildView } from "../../app/types";

export type Step = Building["steps"][number];

interface Kept {
  volts: Building["volts"];
  steps: Step[];
}

export const kept = draft<Kept>("builder", { volts: 12, steps: [] });

export const isBegun = () => kept.value.value.steps.length > 0;

/** What stands, the acts that change it, and why the last one could not be. */
export function useBuilding() {
  const [view, setView] = useState<BuildView | null>(null);
  const [refused, setRefused] = useState("");
  const ask = async (next: Kept, mustBe: boolean) => {
    const answer = await attempt(() => ports().core.call("build", next));
    if (!answer) return;
    setRefused(answer.refused);
    if (answer.refused && mustBe) return;
    kept.set(next);
    setView(answer);
  };
  useEffect(() => {
    void ask(kept.value.value, false);
  }, []);
  const { volts, steps } = kept.value.value;
  return {
    view,
    refused,
    step: (step: Step) => ask({ volts, steps: [...steps, step] }, true),
    undo: () => ask({ volts, steps: steps.slice(0, -1) }, false),
    setVolts: (to: Kept["volts"]) => ask({ volts: to, steps }, false),
  };
}
