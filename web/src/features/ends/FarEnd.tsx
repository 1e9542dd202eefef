/** Where the other end of a wire sits: one of the ends that the sheet's wires have. */

import type { RunView } from "../../app/types";
import { words } from "./words";

interface Props {
  question: string;
  runs: RunView[];
  chosen: RunView | null;
  onChoose: (run: RunView | null) => void;
}

export function FarEnd({ question, runs, chosen, onChoose }: Props) {
  const choose = (value: string) => onChoose(runs.find((run) => keyOf(run) === value) ?? null);
  return (
    <label class="field">
      {question}
      <select
        value={chosen ? keyOf(chosen) : ""}
        onChange={(event) => choose(event.currentTarget.value)}
      >
        <option value="">{words.choose}</option>
        {runs.map((run) => (
          <option key={keyOf(run)} value={keyOf(run)}>
            {run.place}: {run.name}
          </option>
        ))}
      </select>
    </label>
  );
}

const keyOf = ({ wire, point }: RunView) => `${wire} ${point}`;

/** A wire one end of which is where the sheet has it, and the other here. */
export const runTo = ({ wire, point }: RunView, here: string) => ({
  wire,
  start: point,
  end: here,
});
