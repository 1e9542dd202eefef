/** A check that cannot be done: the reason is kept with it. */

import { record, view } from "../../app/job";
import { back } from "../../app/route";
import type { CheckSkipped } from "../../app/types";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { chosen, forgetChoice } from "../check/state";
import { words } from "./words";

export function SkipScreen() {
  const step = view.value?.step;
  const check = chosen.value ?? (step?.kind === "check" ? step.check : null);
  const skip = async (reason: CheckSkipped["reason"]) => {
    if (!check) return;
    const body = { check: check.id, reason, asked: check.do };
    if (!(await record([{ kind: "check skipped", body }]))) return;
    forgetChoice();
    back();
  };
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      keys={
        <>
          {words.reasons.map(({ reason, name }) => (
            <CommitKey key={reason} look="answer" onPress={() => skip(reason)}>
              {name}
            </CommitKey>
          ))}
          <Key onPress={back}>{words.back}</Key>
        </>
      }
    >
      <Trouble />
      <p class="condition">{check?.do}</p>
    </Screen>
  );
}
