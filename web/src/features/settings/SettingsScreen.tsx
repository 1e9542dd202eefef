/** Settings of this phone. */

import { useEffect, useState } from "preact/hooks";
import { ports } from "../../app/ports";
import { hand, theme } from "../../app/prefs";
import { back, go } from "../../app/route";
import { timeOf } from "../../app/time";
import { Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { saveJobs } from "../jobs/files";
import { JobsFileKey } from "../jobs/JobsFileKey";
import { words as jobWords } from "../jobs/words";
import { words } from "./words";

export function SettingsScreen() {
  return (
    <Screen name={words.name} keys={<Key onPress={back}>{words.back}</Key>}>
      <Trouble />
      <Toggles
        question={words.theme}
        options={words.themes}
        chosen={theme.value}
        onChoose={(value) => {
          theme.value = value;
        }}
      />
      <Toggles
        question={words.hand}
        options={words.hands}
        chosen={hand.value}
        onChoose={(value) => {
          hand.value = value;
        }}
      />
      <Kept />
      <PythonState />
      <Key onPress={() => go({ screen: "erase" })}>{words.erase}</Key>
      <Key onPress={() => go({ screen: "about" })}>{words.about}</Key>
    </Screen>
  );
}

/** Where the work lives, and the copies of it. */
function Kept() {
  const { store } = ports();
  const [sentences, setSentences] = useState<string[]>([]);
  useEffect(() => {
    Promise.all([store.keepSentence(), store.roomSentence()]).then(setSentences, () => undefined);
  }, [store]);
  return (
    <section class="block">
      {sentences.filter(Boolean).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p>{jobWords.exported(timeOf(store.lastExport))}</p>
      <Key onPress={() => saveJobs("all jobs")}>{words.saveAll}</Key>
      <JobsFileKey />
    </section>
  );
}

function PythonState() {
  const { core } = ports();
  const now = core.state.value;
  return (
    <section class="block">
      <p>{words.python[now.state]}</p>
      {now.state === "failed" && <p class="soft">{now.reason}</p>}
      {now.state === "failed" && <Key onPress={() => core.start()}>{words.start}</Key>}
    </section>
  );
}
