/** One check: what we want to know, what to do, what to expect, and what each answer means. */

import type { Check, JobView } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { StepScreen } from "../../app/ui/StepScreen";
import { WhyKey } from "../why/WhyKey";
import { CheckKeys } from "./CheckKeys";
import { Expected } from "./Expected";
import { PresenceAsked } from "./PresenceAsked";
import { choose } from "./state";
import { words } from "./words";

export function CheckScreen({ check, view }: { check: Check; view: JobView }) {
  return (
    <StepScreen name={check.do} quietName view={view} keys={<CheckKeys check={check} />}>
      <p class="goal">{check.goal}</p>
      <p class="do">{check.do}</p>
      {check.condition && <p class="condition">{check.condition}</p>}
      <Expected check={check} />
      <PresenceAsked />
      <Outcomes check={check} />
      <p class="why">
        <b>{words.why}: </b>
        {check.why}
      </p>
      <WhyKey check={check} />
      <Along
        checks={view.step.kind === "check" && view.step.check.id === check.id ? view.along : []}
      />
    </StepScreen>
  );
}

/** Checks at the same place, offered with the proposed one. */
function Along({ checks }: { checks: Check[] }) {
  if (checks.length === 0) return null;
  return (
    <section class="stack">
      <h2>{words.along}</h2>
      {checks.map((check) => (
        <Key key={check.id} look="answer" onPress={() => choose(check)}>
          {check.do}
        </Key>
      ))}
    </section>
  );
}

function Outcomes({ check }: { check: Check }) {
  return (
    <ul class="outcomes">
      {check.outcomes.map(({ when, means }) => (
        <li key={when}>
          <b>{when}:</b> {means}
        </li>
      ))}
    </ul>
  );
}
