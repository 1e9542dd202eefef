/** Units, the sign, and the answers that are no number. */

import { CommitKey, Key } from "../../app/ui/Key";
import { keepChoice } from "./keep";
import { press, setUnit, type Typing } from "./state";

export function UnitRow({ now }: { now: Typing }) {
  const { check, unit } = now;
  const signed = !check.units.some((name) => name.endsWith("Ω"));
  return (
    <div class="units">
      {check.units.map((name) => (
        <Key key={name} pressed={unit === name} onPress={() => setUnit(name)}>
          {name}
        </Key>
      ))}
      {signed && (
        <Key label="Plus or minus" onPress={() => press("sign")}>
          ±
        </Key>
      )}
      {check.words.map((word) => (
        <CommitKey key={word} look="quiet" onPress={() => keepChoice(check, word)}>
          {word}
        </CommitKey>
      ))}
    </div>
  );
}
