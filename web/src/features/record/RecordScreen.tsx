/** A reading without the core: place, value, unit and positions, kept as typed. */

import { useDraft } from "../../app/draft";
import { jobId, record } from "../../app/job";
import { shown } from "../../app/number";
import { back } from "../../app/route";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { RecordForm } from "./RecordForm";
import { bodyOf, EMPTY, type Typed } from "./state";
import { words } from "./words";

export function RecordScreen() {
  const draft = useDraft<Typed>(`record.${jobId.value}`, EMPTY);
  const now = draft.value.value;
  const body = bodyOf(now);
  const keep = async () => {
    if (!body || !(await record([{ kind: "reading taken", body }]))) return;
    draft.clear();
    back();
  };
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      keys={
        <div class="key-row">
          <Key look="small" onPress={back}>
            {words.back}
          </Key>
          <CommitKey look="main" off={!body} onPress={keep}>
            {body ? words.keep(`${shown(now.typed)} ${now.unit}`) : words.first}
          </CommitKey>
        </div>
      }
    >
      <Trouble />
      <p class="soft">{words.why}</p>
      <RecordForm now={now} onType={draft.set} />
    </Screen>
  );
}
