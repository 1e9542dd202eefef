/** What a sound circuit would show here: a band on its scale, or a word. */

import type { Check } from "../../app/types";
import { Scale } from "../../app/ui/Scale";
import { words } from "./words";

export function Expected({ check }: { check: Check }) {
  const { band } = check;
  if (!band && !check.healthy_choice) return null;
  return (
    <div class="expected">
      <p class="expected-value">
        {band ? whole(band.text) : check.healthy_choice}{" "}
        <span class={band ? "unseen" : "expected-word"}>{words.expected}</span>
      </p>
      {band && <Scale band={band} word={words.expected} />}
    </div>
  );
}

/** The unit stays with its number. */
const whole = (text: string) => text.replace(/ (\S+)$/, "\u00a0$1");
