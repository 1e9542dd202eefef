/** The step that asks to look at a connector: what for, and what each finding would mean. */

import { show } from "../../app/route";
import type { JobView, WiringStep } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { StepScreen } from "../../app/ui/StepScreen";
import { OtherWays } from "../others/OtherWays";
import { keyOf } from "./state";
import { words } from "./words";

export function WiringStepScreen({ step, view }: { step: WiringStep; view: JobView }) {
  const connector = view.connectors.find(
    ({ id, half }) => id === step.connector && half === step.half,
  );
  const name = connector ? connector.name : step.connector;
  const look = step.hands_off ? words.noted : words.look(name);
  return (
    <StepScreen
      name={step.hands_off ? step.goal : look}
      quietName
      view={view}
      keys={
        <>
          <OtherWays />
          <Key
            look="main"
            onPress={() => show("wiring", keyOf({ id: step.connector, half: step.half }))}
          >
            {look}
          </Key>
        </>
      }
    >
      <p class="goal">{step.goal}</p>
      <p class="do">{step.why}</p>
      <ul class="outcomes">
        {step.outcomes.map(({ when, means }) => (
          <li key={when}>
            <b>{when}:</b> {means}
          </li>
        ))}
      </ul>
    </StepScreen>
  );
}
