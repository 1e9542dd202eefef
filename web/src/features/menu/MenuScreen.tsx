/** The other views of a job, and the way out of it. */

import { practising } from "../../app/facts";
import { go, show } from "../../app/route";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { wake } from "../../app/wake";
import { words as practiceWords } from "../practice/words";
import { words } from "./words";

export function MenuScreen() {
  return (
    <Screen name={words.name} above={<JobHead />} bar={<Bar />}>
      <Trouble />
      {wake.value === "missing" && <p class="soft">{words.noWake}</p>}
      <div class="answers stack-low">
        <Key look="answer" onPress={() => go({ screen: "settings" })}>
          {words.settings}
        </Key>
        <Key look="answer" onPress={() => go({ screen: "jobs" })}>
          {words.jobs}
        </Key>
        <Key look="answer" onPress={() => show("share")}>
          {words.share}
        </Key>
        <Key look="answer" onPress={() => show("files")}>
          {words.files}
        </Key>
        <Key look="answer" onPress={() => show("report")}>
          {words.report}
        </Key>
        {practising.value ? (
          <Key look="answer" onPress={() => show("hidden")}>
            {practiceWords.reveal}
          </Key>
        ) : (
          <Key look="answer" onPress={() => show("record")}>
            {words.record}
          </Key>
        )}
        <Key look="answer" onPress={() => show("wiring")}>
          {words.wiring}
        </Key>
        <Key look="answer" onPress={() => show("story")}>
          {words.story}
        </Key>
      </div>
    </Screen>
  );
}
