/** Stands where no step can be shown yet: says what is being worked out, or what failed. */

import { look, working } from "../../app/job";
import { ports } from "../../app/ports";
import { show } from "../../app/route";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { words } from "./words";

export function Waiting() {
  const busy = working.value !== "" && ports().core.state.value.state !== "failed";
  return (
    <Screen
      name={busy ? words.waiting : "Record and go on"}
      above={<JobHead />}
      bar={<Bar />}
      keys={
        <>
          {!busy && <Key onPress={() => look(words.waiting)}>{words.again}</Key>}
          <Key look="main" onPress={() => show("record")}>
            {words.record}
          </Key>
        </>
      }
    >
      <Trouble />
      <p>{busy ? words.waitingLong : words.failed}</p>
    </Screen>
  );
}
