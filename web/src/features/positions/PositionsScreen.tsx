/** Try every position and say what each load does. */

import { useDraft } from "../../app/draft";
import { practising } from "../../app/facts";
import { jobId, record } from "../../app/job";
import { show } from "../../app/route";
import type { JobView, PositionsStep } from "../../app/types";
import { CommitKey } from "../../app/ui/Key";
import { StepScreen } from "../../app/ui/StepScreen";
import { Undo } from "../history/Undo";
import { tryPositions } from "../practice/answers";
import { words as practiceWords } from "../practice/words";
import { PositionRows } from "./PositionRows";
import { statesOf, type Told } from "./state";
import { words } from "./words";

export function PositionsScreen({ step, view }: { step: PositionsStep; view: JobView }) {
  const told = useDraft<Told>(`positions.${jobId.value}`, {});
  const asked = {
    positions: step.ask,
    loads: view.loads.filter(({ id }) => step.loads.includes(id)),
  };
  const states = statesOf(told.value.value, asked);
  const keep = async (seen = states) => {
    if (seen.length === 0) return;
    const engine = step.engine ? { engine: step.engine } : {};
    const body = { seen_by: "me" as const, states: seen, ...engine };
    if (await record([{ kind: "positions tried", body }])) {
      told.clear();
      show("work");
    }
  };
  const tryAll = async () => keep(await tryPositions(step.ask));
  return (
    <StepScreen
      name={step.goal}
      view={view}
      keys={
        <div class="key-row">
          <Undo />
          {practising.value ? (
            <CommitKey look="main" onPress={tryAll}>
              {practiceWords.tryAll}
            </CommitKey>
          ) : (
            <CommitKey look="main" off={states.length === 0} onPress={() => keep()}>
              {states.length === 0 ? words.first : words.keep}
            </CommitKey>
          )}
        </div>
      }
    >
      {step.why && <p class="why">{step.why}</p>}
      {!practising.value && (
        <PositionRows
          {...asked}
          controls={view.controls}
          told={told.value.value}
          onTell={told.set}
        />
      )}
    </StepScreen>
  );
}
