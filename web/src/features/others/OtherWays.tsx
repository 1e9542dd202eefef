/** The small keys above a step that is no check: another one, or back by one. */

import { show } from "../../app/route";
import { Key } from "../../app/ui/Key";
import { words as checkWords } from "../check/words";
import { Undo } from "../history/Undo";

export function OtherWays() {
  return (
    <div class="key-row">
      <Key look="small" onPress={() => show("others")}>
        {checkWords.another}
      </Key>
      <Undo />
    </div>
  );
}
