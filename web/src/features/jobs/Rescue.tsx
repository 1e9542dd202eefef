/** When the store is in trouble: take out what can be read, bring back what was exported. */

import { useState } from "preact/hooks";
import { ports } from "../../app/ports";
import { CommitKey, Key } from "../../app/ui/Key";
import { saveJobs } from "./files";
import { JobsFileKey } from "./JobsFileKey";

const words = {
  title: "What you can do",
  save: "Save everything as a file",
  goOn: "Go on with what is here",
  failed: "Nothing could be read from the store.",
};

export function Rescue() {
  const [failed, setFailed] = useState(false);
  const { store } = ports();
  const state = store.state.value;
  const save = async () => setFailed(!(await saveJobs("rescue")));
  return (
    <section class="block">
      <h2>{words.title}</h2>
      {failed && <p>{words.failed}</p>}
      <Key onPress={save}>{words.save}</Key>
      <JobsFileKey />
      {typeof state === "object" && "emptied" in state && (
        <CommitKey onPress={() => store.goOn()}>{words.goOn}</CommitKey>
      )}
    </section>
  );
}
