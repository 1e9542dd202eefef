/** A wire in a plug that the sheet does not have there: followed to its other end, it may be one that it has. */

import { useState } from "preact/hooks";
import { recordChange } from "../../app/job";
import { show } from "../../app/route";
import type { RunView, StrangeWire } from "../../app/types";
import { CommitKey } from "../../app/ui/Key";
import { FarEnd, runTo } from "../ends/FarEnd";
import { words as endWords } from "../ends/words";

export function Strange({ wire }: { wire: StrangeWire }) {
  const [run, setRun] = useState<RunView | null>(null);
  const keep = async () => {
    if (!run) return;
    const body = runTo(run, wire.point);
    if (await recordChange({ kind: "wire followed", body })) show("work");
  };
  return (
    <section class="block">
      <h3>{wire.name}</h3>
      <FarEnd question={endWords.followed} runs={wire.runs} chosen={run} onChoose={setRun} />
      <CommitKey off={!run} onPress={keep}>
        {endWords.thisOne}
      </CommitKey>
    </section>
  );
}
