/** Nothing is left to check: mended and proven, or stuck with the reason. */

import { practising } from "../../app/facts";
import { show } from "../../app/route";
import type { FinishedStep, JobView } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Plumb } from "../../app/ui/Plumb";
import { Screen } from "../../app/ui/Screen";
import { Cause } from "../cause/Cause";
import { Undo } from "../history/Undo";
import { words as practiceWords } from "../practice/words";
import { words } from "./words";

export function Finished({ step, view }: { step: FinishedStep; view: JobView }) {
  return (
    <Screen
      name={step.title}
      above={<JobHead />}
      beside={<Plumb view={view} />}
      bar={<Bar />}
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
      <Trouble />
      <ul class="plain">
        {step.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {view.causes.map((cause) => (
        <Cause key={cause.title} cause={cause} />
      ))}
    </Screen>
  );
}
