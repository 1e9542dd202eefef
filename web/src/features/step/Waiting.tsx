/** Stands where no step can be shown yet: says what is being worked out, or what failed. */

import { practising } from "../../app/facts";
import { look, view, working } from "../../app/job";
import { ports } from "../../app/ports";
import { show } from "../../app/route";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Plumb } from "../../app/ui/Plumb";
import { Screen } from "../../app/ui/Screen";
import { sheet } from "../circuit/sheet";
import { words } from "./words";

/** Parts of a sheet from which the first answer is waited for. */
const MANY = 60;

/** Does nothing to a Python that runs. */
function again(): void {
  ports().core.start();
  void look(words.waiting);
}

export function Waiting() {
  const busy = working.value !== "" && ports().core.state.value.state !== "failed";
  const last = view.value;
  const parts = sheet.value.parts.length;
  return (
    <Screen
      name={busy ? working.value : words.stopped}
      above={<JobHead />}
      beside={last && <Plumb view={last} />}
      bar={<Bar />}
      keys={
        <div class="key-row">
          {!busy && (
            <Key look="small" onPress={again}>
              {words.again}
            </Key>
          )}
          {!practising.value && (
            <Key look={busy ? "plain" : "main"} onPress={() => show("record")}>
              {words.record}
            </Key>
          )}
        </div>
      }
    >
      <Trouble />
      <p>{busy ? words.meanwhile : words.failed}</p>
      {busy && parts >= MANY && <p>{words.large(parts)}</p>}
    </Screen>
  );
}
