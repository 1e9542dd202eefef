/** A caution: a screen of its own before its step, passed once per hazard and sitting. */

import { record } from "../../app/job";
import type { Caution } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { words } from "./words";

export function CautionScreen({ caution }: { caution: Caution }) {
  const pass = () => record([{ kind: "caution passed", body: { hazard: caution.hazard } }]);
  return (
    <Screen
      name={`${caution.level}: ${caution.what}`}
      quietName
      above={<JobHead />}
      bar={<Bar />}
      keys={
        <CommitKey look="main" onPress={pass}>
          {words.passed}
        </CommitKey>
      }
    >
      <Trouble />
      <section class={`caution caution-${caution.level.toLowerCase()}`}>
        <p class="caution-word">
          {caution.level !== "NOTICE" && <Sign />}
          {caution.level}
        </p>
        <div class="caution-body">
          <p class="caution-what">{caution.what}</p>
          <p>{caution.avoid}</p>
          <p>{caution.where}</p>
          <p>{caution.otherwise}</p>
        </div>
      </section>
    </Screen>
  );
}

function Sign() {
  return (
    <svg class="caution-sign" viewBox="0 0 44 40" width="44" height="40" aria-hidden="true">
      <path class="caution-triangle" d="M22 3 L41 37 H3 Z" />
      <path class="caution-mark" d="M22 14 V25 M22 30.5 V31" />
    </svg>
  );
}
