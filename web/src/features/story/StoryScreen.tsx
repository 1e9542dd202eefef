/** The whole story, to be told or changed at any time. Each change is kept as an event of its own. */

import { useDraft } from "../../app/draft";
import { jobId, record, view } from "../../app/job";
import { back, show } from "../../app/route";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Ticks, Toggles } from "../../app/ui/Toggles";
import { Seen } from "./Seen";
import { SittingAsked } from "./SittingAsked";
import { entriesOf, type Story, storyNow } from "./state";
import { ToolTicks, toggled } from "./ToolTicks";
import { words } from "./words";

export function StoryScreen() {
  const draft = useDraft<Story>(`story.${jobId.value}`, storyNow());
  const told = draft.value.value;
  const keep = async () => {
    const entries = entriesOf(told);
    if (entries.length > 0 && !(await record(entries))) return;
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
          <CommitKey look="main" onPress={keep}>
            {words.keep}
          </CommitKey>
        </div>
      }
    >
      <Trouble />
      <StoryForm told={told} onTell={draft.set} />
      <ToolTicks />
      <div class="stack">
        <SittingAsked />
        <Key onPress={() => show("positions")}>{words.positions}</Key>
        <Key onPress={() => show("circuit")}>{words.earlier}</Key>
      </div>
    </Screen>
  );
}

function StoryForm({ told, onTell }: { told: Story; onTell: (story: Story) => void }) {
  const items = view.value?.items ?? [];
  const parts = items.filter(({ kind }) => kind !== "wire").map(asOption);
  const wiring = items.filter(({ kind }) => kind !== "part").map(asOption);
  return (
    <>
      <label class="field">
        {words.words}
        <textarea
          rows={3}
          maxLength={2000}
          value={told.words}
          onInput={(event) => onTell({ ...told, words: event.currentTarget.value })}
        />
      </label>
      <Toggles
        question={words.now}
        options={words.nowAnswers}
        chosen={told.dead_now}
        onChoose={(dead_now) => onTell({ ...told, dead_now })}
      />
      {items.length === 0 && <p class="soft">{words.nothingToName}</p>}
      <Ticks
        question={words.renewed}
        options={parts}
        chosen={told.renewed}
        onToggle={(id) => onTell({ ...told, renewed: toggled(told.renewed, id) })}
      />
      <Ticks
        question={words.rewired}
        options={wiring}
        chosen={told.rewired}
        onToggle={(id) => onTell({ ...told, rewired: toggled(told.rewired, id) })}
      />
      <Seen items={items} seen={told.seen} onSee={(seen) => onTell({ ...told, seen })} />
    </>
  );
}

const asOption = ({ id, name }: { id: string; name: string }) => ({ value: id, name });
