/** What is at hand: asked once, remembered on the phone. */

import { helper, type Instrument, instruments } from "../../app/prefs";
import { Key } from "../../app/ui/Key";
import { Ticks } from "../../app/ui/Toggles";
import { words } from "./words";

export function ToolTicks() {
  return (
    <>
      <Ticks
        question={words.tools}
        options={words.toolNames}
        chosen={instruments.value}
        onToggle={(one) => {
          instruments.value = toggled(instruments.value, one);
        }}
      />
      <Key
        pressed={helper.value}
        onPress={() => {
          helper.value = !helper.value;
        }}
      >
        {words.helper}
      </Key>
    </>
  );
}

export function toggled<T>(all: readonly T[], one: T): T[] {
  return all.includes(one) ? all.filter((other) => other !== one) : [...all, one];
}

export const sameTools = (a: readonly Instrument[], b: readonly Instrument[]) =>
  [...a].sort().join() === [...b].sort().join();
