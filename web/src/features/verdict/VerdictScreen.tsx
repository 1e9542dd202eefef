/** What was kept and what it amounts to, before the next step. */

import { view, working } from "../../app/job";
import { Bar } from "../../app/ui/Bar";
import { Icon } from "../../app/ui/Icon";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Plumb } from "../../app/ui/Plumb";
import { Screen } from "../../app/ui/Screen";
import { Undo } from "../history/Undo";
import { type Kept, verdict } from "./state";
import { words } from "./words";

/** A verdict is a word and a shape, never a colour. */
const SHAPES = { true: "fits", false: "differs", null: "noted" } as const;

export function VerdictScreen({ kept }: { kept: Kept }) {
  const busy = working.value !== "";
  const now = view.value;
  return (
    <Screen
      name={`${words.kept}: ${kept.text}`}
      quietName
      above={<JobHead />}
      beside={now && <Plumb view={now} />}
      bar={<Bar />}
      keys={
        <div class="key-row">
          <Undo onUndone={verdict.clear} />
          <Key look="main" off={busy} onPress={verdict.clear}>
            {busy ? working.value : words.next}
          </Key>
        </div>
      }
    >
      <Trouble />
      <p class="goal">{kept.where}</p>
      <p class="digits">{kept.text}</p>
      <p class="said verdict">
        <Icon name={SHAPES[`${kept.fits}`]} />
        {kept.said}
      </p>
      {kept.expected && <p class="condition">{words.expected(kept.expected)}</p>}
      {!busy && now && <p class="left">{now.suspects.left_words}</p>}
    </Screen>
  );
}
