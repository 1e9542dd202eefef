/** The cause is proven: what proves it, why it failed, how to mend it, and the word that it is done. */

import { record } from "../../app/job";
import type { JobView, RepairDone, RepairStep } from "../../app/types";
import { CommitKey } from "../../app/ui/Key";
import { StepScreen } from "../../app/ui/StepScreen";
import { Cause } from "../cause/Cause";
import { Undo } from "../history/Undo";
import { words } from "./words";

export function Repair({ step, view }: { step: RepairStep; view: JobView }) {
  const done = (what: RepairDone["what"]) =>
    record([
      { kind: "repair done", body: { element: step.element, mode: step.mode, what, note: "" } },
    ]);
  return (
    <StepScreen
      name={step.title}
      view={view}
      keys={
        <>
          <div class="key-row">
            <Undo />
          </div>
          <div class="answers">
            {words.ways.map(({ what, name }) => (
              <CommitKey key={what} look="answer" onPress={() => done(what)}>
                {name}
              </CommitKey>
            ))}
          </div>
        </>
      }
    >
      <p class="why">{step.why}</p>
      <ol class="steps">
        {step.do.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
      {step.unseen && <p class="why">{step.unseen}</p>}
      {view.causes.map((cause) => (
        <Cause key={cause.title} cause={cause} />
      ))}
    </StepScreen>
  );
}
