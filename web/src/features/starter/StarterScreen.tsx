/** A job without a diagram: four answers, and the core makes a sheet to begin with. */

import { useState } from "preact/hooks";
import { attempt } from "../../app/job";
import { ports } from "../../app/ports";
import { back, go } from "../../app/route";
import type { StarterWanted } from "../../app/types";
import { Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { newId } from "../../storage";
import { words } from "./words";

type Answers = Omit<StarterWanted, "load"> & { load: StarterWanted["load"] | null };

const POSITIONS = [2, 3, 4, 5, 6].map((value) => ({ value, name: String(value) }));

export function StarterScreen() {
  const [answers, setAnswers] = useState<Answers>({
    load: null,
    volts: 12,
    positions: 2,
    relay: false,
  });
  const { load } = answers;
  const answer = (more: Partial<Answers>) => setAnswers({ ...answers, ...more });
  const make = async () => {
    const job = load && (await attempt(() => openStarter({ ...answers, load })));
    if (job) go({ screen: "job", job, show: "complaint" }, true);
  };
  return (
    <Screen
      name={words.name}
      keys={
        <div class="key-row">
          <Key look="small" onPress={back}>
            {words.back}
          </Key>
          <CommitKey look="main" off={!load} onPress={make}>
            {load ? words.make : words.choose}
          </CommitKey>
        </div>
      }
    >
      <Trouble />
      <p>{words.intro}</p>
      <Toggles
        question={words.load}
        options={words.loads}
        chosen={load}
        onChoose={(load) => answer({ load })}
      />
      <Toggles
        question={words.volts}
        options={words.voltages}
        chosen={answers.volts}
        onChoose={(volts) => answer({ volts })}
      />
      {load !== "lock or window" && load !== "sensor" && (
        <Toggles
          question={words.positions}
          options={POSITIONS}
          chosen={answers.positions}
          onChoose={(positions) => answer({ positions })}
        />
      )}
      {load !== "lock or window" && load !== "starter" && load !== "sensor" && (
        <Toggles
          question={words.relay}
          options={words.relays}
          chosen={answers.relay}
          onChoose={(relay) => answer({ relay })}
        />
      )}
      <p class="soft">{words.sensors}</p>
    </Screen>
  );
}

/** Stores a new job on the sheet that the answers make, and answers its id. */
async function openStarter(wanted: StarterWanted): Promise<string> {
  const { title, sheet } = await ports().core.call("starter", wanted);
  const job = newId();
  await ports().store.append(job, "job opened", { title, sheet });
  return job;
}
