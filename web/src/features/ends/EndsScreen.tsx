/** The step that asks where the ends of a wire sit, or to put it back where the sheet has it. */

import { useState } from "preact/hooks";
import { record } from "../../app/job";
import type { EndsStep, JobView } from "../../app/types";
import { CommitKey, Key } from "../../app/ui/Key";
import { StepScreen } from "../../app/ui/StepScreen";
import { OtherWays } from "../others/OtherWays";
import { Otherwise } from "./Otherwise";
import { words } from "./words";

export function EndsScreen({ step, view }: { step: EndsStep; view: JobView }) {
  const [odd, setOdd] = useState(false);
  return (
    <StepScreen
      name={step.goal}
      view={view}
      keys={
        odd ? (
          <Key onPress={() => setOdd(false)}>{words.back}</Key>
        ) : (
          <Keys step={step} onOdd={() => setOdd(true)} />
        )
      }
    >
      <p class="why">{step.why}</p>
      {odd ? (
        <Otherwise step={step} />
      ) : (
        <>
          <ol class="steps">
            {step.do.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
          {step.ends.length > 0 && <h3>{words.bySheet}</h3>}
          <ul class="plain">
            {step.ends.map(({ point, told }) => (
              <li key={point}>{told}</li>
            ))}
          </ul>
        </>
      )}
    </StepScreen>
  );
}

function Keys({ step, onOdd }: { step: EndsStep; onOdd: () => void }) {
  const { wire } = step;
  const [one, other] = step.ends;
  const asDrawn = () =>
    one &&
    other &&
    record([{ kind: "wire followed", body: { wire, start: one.point, end: other.point } }]);
  const cannot = () =>
    record([
      {
        kind: "check skipped",
        body: { check: `ends of ${wire}`, reason: "other", asked: step.goal },
      },
    ]);
  if (step.put_back)
    return (
      <>
        <OtherWays />
        <CommitKey look="main" onPress={() => record([{ kind: "wire put back", body: { wire } }])}>
          {words.done}
        </CommitKey>
      </>
    );
  return (
    <>
      <OtherWays />
      <div class="answers">
        <CommitKey look="answer" onPress={asDrawn}>
          {words.asDrawn}
        </CommitKey>
        <Key look="answer" onPress={onOdd}>
          {words.otherwise}
        </Key>
        <CommitKey look="answer" onPress={cannot}>
          {words.cannotFind}
        </CommitKey>
      </div>
    </>
  );
}
