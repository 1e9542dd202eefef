/** A new job starts with a circuit of the library. */

import { useEffect, useState } from "preact/hooks";
import { attempt } from "../../app/job";
import { back, go } from "../../app/route";
import type { Circuit } from "../../app/types";
import { Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { practiseOn } from "../practice/begin";
import { words as practiceWords } from "../practice/words";
import { circuits, openOn } from "./library";
import { words } from "./words";

type Listed = Circuit[] | "reading" | "missing";

export function NewJobScreen({ practice = false }: { practice?: boolean }) {
  const [listed, setListed] = useState<Listed>("reading");
  const read = () => {
    setListed("reading");
    circuits().then(setListed, () => setListed("missing"));
  };
  useEffect(read, []);
  return (
    <Screen
      name={practice ? practiceWords.pick : words.name}
      keys={<Key onPress={back}>{words.back}</Key>}
    >
      <Trouble />
      {practice && <p>{practiceWords.intro}</p>}
      {listed === "reading" && <p>{words.reading}</p>}
      {listed === "missing" && (
        <>
          <p role="alert">{words.missing}</p>
          <Key onPress={read}>{words.again}</Key>
        </>
      )}
      <div class="stack stack-low">
        {Array.isArray(listed) &&
          listed.map((circuit) => (
            <CircuitKey key={circuit.id} circuit={circuit} practice={practice} />
          ))}
      </div>
    </Screen>
  );
}

function CircuitKey({ circuit, practice }: { circuit: Circuit; practice: boolean }) {
  const open = async () => {
    const job = await attempt(() => (practice ? practiseOn(circuit) : openOn(circuit)));
    if (job) go({ screen: "job", job, show: practice ? "work" : "complaint" }, true);
  };
  return (
    <CommitKey look="answer" onPress={open}>
      <span class="answer-lines">
        <b>{circuit.title}</b>
        <span>{words.vehicle(circuit.vehicle, circuit.system_volts)}</span>
        <span class="soft">{circuit.summary}</span>
      </span>
    </CommitKey>
  );
}
