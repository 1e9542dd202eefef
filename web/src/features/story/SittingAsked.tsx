/** A new sitting: engine and supply as they are now. Cautions are shown again in it. */

import { useState } from "preact/hooks";
import { sitting } from "../../app/facts";
import { record } from "../../app/job";
import { inBaseUnit } from "../../app/number";
import { CommitKey } from "../../app/ui/Key";
import { Toggles } from "../../app/ui/Toggles";
import { words } from "./words";

export function SittingAsked() {
  const [engine, setEngine] = useState(sitting.value?.engine ?? "off");
  const [typed, setTyped] = useState("");
  const begin = () =>
    record([{ kind: "sitting begun", body: { engine, supply_volts: inBaseUnit(typed, "V") } }]);
  return (
    <section class="block">
      <h2>{words.sitting}</h2>
      <p class="soft">{words.sittingWhy}</p>
      <Toggles
        question={words.engine}
        options={words.engineAnswers}
        chosen={engine}
        onChoose={setEngine}
      />
      <label class="field">
        {words.supply}
        <input
          inputMode="decimal"
          autoComplete="off"
          maxLength={8}
          value={typed}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      <CommitKey onPress={begin}>{words.begin}</CommitKey>
    </section>
  );
}
