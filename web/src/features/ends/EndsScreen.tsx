/** The step that asks where the ends of a wire sit, or to put it back where the sheet has it. */

import { useState } from "preact/hooks";
import { record } from "../../app/job";
import { show } from "../../app/route";
import type { EndsStep, JobView } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Plumb } from "../../app/ui/Plumb";
import { Screen } from "../../app/ui/Screen";
import { words as checkWords } from "../check/words";
import { Undo } from "../history/Undo";
import { Otherwise } from "./Otherwise";
import { words } from "./words";

export function EndsScreen({ step, view }: { step: EndsStep; view: JobView }) {
  const [odd, setOdd] = useState(false);
  return (
    <Screen
      name={step.goal}
      above={<JobHead />}
      beside={<Plumb view={view} />}
      bar={<Bar />}
      keys={
        odd ? (
          <Key onPress={() => setOdd(false)}>{words.back}</Key>
        ) : (
          <Keys step={step} onOdd={() => setOdd(true)} />
        )
      }
    >
      <Trouble />
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
    </Screen>
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
  const small = (
    <div class="key-row">
      <Key look="small" onPress={() => show("others")}>
        {checkWords.another}
      </Key>
      <Undo />
    </div>
  );
  if (step.put_back)
    return (
      <>
        {small}
        <CommitKey look="main" onPress={() => record([{ kind: "wire put back", body: { wire } }])}>
          {words.done}
        </CommitKey>
      </>
    );
  return (
    <>
      {small}
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
