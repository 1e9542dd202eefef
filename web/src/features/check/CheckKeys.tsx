/** The keys of a check: the answer large, other ways small above it. */

import { practising } from "../../app/facts";
import { show } from "../../app/route";
import type { Check } from "../../app/types";
import { CommitKey, Key } from "../../app/ui/Key";
import { Undo } from "../history/Undo";
import { keepChoice } from "../pad/keep";
import { openPad } from "../pad/state";
import { measure } from "../practice/answers";
import { words as practiceWords } from "../practice/words";
import { chosen, forgetChoice } from "./state";
import { words } from "./words";

export function CheckKeys({ check }: { check: Check }) {
  return (
    <>
      <div class="key-row">
        {chosen.value ? (
          <Key look="small" onPress={forgetChoice}>
            {words.proposed}
          </Key>
        ) : (
          <Key look="small" onPress={() => show("others")}>
            {words.another}
          </Key>
        )}
        <Key look="small" onPress={() => show("skip")}>
          {words.cannot}
        </Key>
        <Undo />
      </div>
      {practising.value ? (
        <CommitKey look="main" onPress={() => measure(check)}>
          {check.entry === "number" ? practiceWords.measure : practiceWords.look}
        </CommitKey>
      ) : check.entry === "number" ? (
        <Key look="main" onPress={() => openPad(check)}>
          {words.enter}
        </Key>
      ) : (
        <Choices check={check} />
      )}
    </>
  );
}

function Choices({ check }: { check: Check }) {
  return (
    <div class="answers">
      {check.choices.map((choice) => (
        <CommitKey key={choice} look="answer" onPress={() => keepChoice(check, choice)}>
          {choice}
        </CommitKey>
      ))}
    </div>
  );
}
