/** The step that asks to look at a connector: what for, and what each finding would mean. */

import { show } from "../../app/route";
import type { JobView, WiringStep } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Plumb } from "../../app/ui/Plumb";
import { Screen } from "../../app/ui/Screen";
import { words as checkWords } from "../check/words";
import { Undo } from "../history/Undo";
import { keyOf } from "./state";
import { words } from "./words";

export function WiringStepScreen({ step, view }: { step: WiringStep; view: JobView }) {
  const connector = view.connectors.find(
    ({ id, half }) => id === step.connector && half === step.half,
  );
  const name = connector ? connector.name : step.connector;
  return (
    <Screen
      name={words.look(name)}
      quietName
      above={<JobHead />}
      beside={<Plumb view={view} />}
      bar={<Bar />}
      keys={
        <>
          <div class="key-row">
            <Key look="small" onPress={() => show("others")}>
              {checkWords.another}
            </Key>
            <Undo />
          </div>
          <Key
            look="main"
            onPress={() => show("wiring", keyOf({ id: step.connector, half: step.half }))}
          >
            {words.look(name)}
          </Key>
        </>
      }
    >
      <Trouble />
      <p class="goal">{step.goal}</p>
      <p class="do">{step.why}</p>
      <ul class="outcomes">
        {step.outcomes.map(({ when, means }) => (
          <li key={when}>
            <b>{when}:</b> {means}
          </li>
        ))}
      </ul>
    </Screen>
  );
}
