/** Twelve big keys, 1-2-3 on top. */

import { decimalMark } from "../../app/number";
import { Icon } from "../../app/ui/Icon";
import { Key } from "../../app/ui/Key";

const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];

export function Keypad({ onKey }: { onKey: (key: string) => void }) {
  const digit = (key: string) => (
    <Key key={key} onPress={() => onKey(key)}>
      {key}
    </Key>
  );
  return (
    <div class="keypad">
      {DIGITS.map(digit)}
      <Key label="Decimal mark" onPress={() => onKey(".")}>
        {decimalMark}
      </Key>
      {digit("0")}
      <Key label="Delete last digit" onPress={() => onKey("delete")}>
        <Icon name="delete" />
      </Key>
    </div>
  );
}
