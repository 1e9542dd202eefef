/** A new sitting: the state of the engine now. Cautions are shown again in it. */

import { sitting } from "../../app/facts";
import { record } from "../../app/job";
import { CommitKey } from "../../app/ui/Key";
import { words } from "./words";

export function SittingAsked() {
  const now = sitting.value?.engine ?? "off";
  return (
    <fieldset class="toggles">
      <legend>{words.engine}</legend>
      <div class="toggle-row">
        {words.engineAnswers.map(({ value, name }) => (
          <CommitKey
            key={value}
            pressed={now === value}
            onPress={() =>
              now !== value && record([{ kind: "sitting begun", body: { engine: value } }])
            }
          >
            {name}
          </CommitKey>
        ))}
      </div>
    </fieldset>
  );
}
