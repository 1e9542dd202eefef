/** Other checks that would help, best first, and the way to any place of the circuit. */

import { view } from "../../app/job";
import { back, show } from "../../app/route";
import { Bar } from "../../app/ui/Bar";
import { JobHead } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { choose } from "../check/state";
import { words } from "./words";

export function OthersScreen() {
  const others = view.value?.others ?? [];
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      bar={<Bar />}
      keys={
        <div class="key-row">
          <Key onPress={back}>{words.back}</Key>
          <Key onPress={() => show("circuit")}>{words.place}</Key>
        </div>
      }
    >
      {others.length === 0 && <p>{words.none}</p>}
      <div class="stack">
        {others.map((check) => (
          <Key key={check.id} look="answer" onPress={() => choose(check)}>
            <span class="answer-lines">
              <span>{check.do}</span>
              <span>{check.condition}</span>
              <span class="soft">
                {check.goal} {words.minutes(check.minutes)}
              </span>
            </span>
          </Key>
        ))}
      </div>
    </Screen>
  );
}
