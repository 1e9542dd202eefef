/** Nothing is left to check: mended and proven, or stuck with the reason. */

import { practising } from "../../app/facts";
import { show } from "../../app/route";
import type { FinishedStep, JobView } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { StepScreen } from "../../app/ui/StepScreen";
import { Cause } from "../cause/Cause";
import { Undo } from "../history/Undo";
import { words as practiceWords } from "../practice/words";
import { words } from "./words";

export function Finished({ step, view }: { step: FinishedStep; view: JobView }) {
  return (
    <StepScreen
      name={step.title}
      view={view}
      keys={
        <div class="key-row">
          <Undo />
          {practising.value ? (
            <Key look="main" onPress={() => show("hidden")}>
              {practiceWords.reveal}
            </Key>
          ) : (
            <Key look="main" onPress={() => show("report")}>
              {words.report}
            </Key>
          )}
        </div>
      }
    >
      <ul class="plain">
        {step.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {view.causes.map((cause) => (
        <Cause key={cause.title} cause={cause} />
      ))}
    </StepScreen>
  );
}
