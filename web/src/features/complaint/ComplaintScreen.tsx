/** The complaint in few touches: what the load does in each position, and what is at hand. */

import { useEffect } from "preact/hooks";
import { useDraft } from "../../app/draft";
import { jobId, record, view } from "../../app/job";
import { go, show } from "../../app/route";
import type { JobView, LoadView } from "../../app/types";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { PositionRows } from "../positions/PositionRows";
import { askedOf } from "../positions/state";
import { Waiting } from "../step/Waiting";
import { ToolTicks } from "../story/ToolTicks";
import { prepareWhile } from "./ahead";
import {
  type Complaint,
  deadOf,
  entriesOf,
  isDeadSaid,
  isTold,
  nothingTold,
  toldBy,
} from "./state";
import { words } from "./words";

export function ComplaintScreen() {
  return view.value ? <Told view={view.value} /> : <Waiting />;
}

function Told({ view: now }: { view: JobView }) {
  const draft = useDraft<Complaint>(`complaint.${jobId.value}`, nothingTold);
  const said = draft.value.value;
  const asked = askedOf(now);
  usePreparation();
  const start = async () => {
    if (!(await record(entriesOf(said, now)))) return;
    draft.clear();
    if (jobId.value) go({ screen: "job", job: jobId.value, show: "work" }, true);
  };
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      keys={
        <>
          <div class="key-row">
            <Key look="small" onPress={() => show("story")}>
              {words.story}
            </Key>
          </div>
          <CommitKey look="main" onPress={start}>
            {words.start}
          </CommitKey>
        </>
      }
    >
      <Trouble />
      <div class="stack">
        {!isDeadSaid(now) && (
          <Key look="answer" onPress={() => draft.set({ ...deadOf(now), now: said.now })}>
            {deadIn(asked.loads)}
          </Key>
        )}
        {now.complaints.map((answer) => (
          <Key
            key={answer.words}
            look="answer"
            pressed={isTold(answer, said)}
            onPress={() => draft.set({ ...said, told: toldBy(answer), engine: answer.engine })}
          >
            {answer.words}
          </Key>
        ))}
      </div>
      <p class="soft">{words.rows}</p>
      <PositionRows
        {...asked}
        controls={now.controls}
        told={said.told}
        onTell={(told) => draft.set({ ...said, told })}
      />
      <Toggles
        question={words.now}
        options={words.nowAnswers}
        chosen={said.now}
        onChoose={(value) => draft.set({ ...said, now: value })}
      />
      <ToolTicks />
    </Screen>
  );
}

/** A lamp is dark, a heater cold; of loads of several kinds people say that they are dead. */
function deadIn(loads: LoadView[]): string {
  const [said, ...others] = new Set(loads.map(({ dead_words }) => dead_words));
  return said && others.length === 0 ? said : words.dead;
}

/** The core works ahead while the story is told; where it cannot, it does the same work later. */
function usePreparation(): void {
  useEffect(() => {
    let told = false;
    prepareWhile(() => !told).catch(() => undefined);
    return () => {
      told = true;
    };
  }, []);
}
