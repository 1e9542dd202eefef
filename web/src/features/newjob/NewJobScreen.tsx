/** A new job starts with a circuit of the library. */

import { useEffect, useState } from "preact/hooks";
import { attempt } from "../../app/job";
import { ports } from "../../app/ports";
import { back, go } from "../../app/route";
import type { Circuit } from "../../app/types";
import { Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { practiseOn } from "../practice/begin";
import { words as practiceWords } from "../practice/words";
import { ABOUT, circuits, isAbout, isMeant, openOn } from "./library";
import { SheetFile } from "./SheetFile";
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
      keys={
        <div class="key-row">
          <Key look="small" onPress={back}>
            {words.back}
          </Key>
          {!practice && (
            <Key look="small" onPress={() => go({ screen: "builder" })}>
              {words.diagram}
            </Key>
          )}
          {!practice && (
            <Key look="main" onPress={() => go({ screen: "starter" })}>
              {words.noDiagram}
            </Key>
          )}
        </div>
      }
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
      {Array.isArray(listed) && <Listing circuits={listed} practice={practice} />}
      {!practice && <SheetFile />}
    </Screen>
  );
}

interface ListingProps {
  circuits: Circuit[];
  practice: boolean;
}

/** All circuits, or those that somebody looks for: a touch or a few letters. */
function Listing({ circuits, practice }: ListingProps) {
  const [about, setAbout] = useState("");
  const [typed, setTyped] = useState("");
  const found = circuits.filter((one) => isAbout(one, about) && isMeant(one, typed));
  return (
    <>
      <Toggles
        question={words.about}
        options={["", ...ABOUT].map((value) => ({ value, name: value || words.all }))}
        chosen={about}
        onChoose={setAbout}
      />
      <label class="field">
        {words.search}
        <input
          type="search"
          autoComplete="off"
          maxLength={40}
          value={typed}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      {found.length === 0 && <p role="status">{words.nothing}</p>}
      <div class="stack">
        {found.map((circuit) => (
          <CircuitKey key={circuit.id} circuit={circuit} practice={practice} />
        ))}
      </div>
    </>
  );
}

const isReady = () => ports().core.state.value.state === "ready";

function CircuitKey({ circuit, practice }: { circuit: Circuit; practice: boolean }) {
  const [busy, setBusy] = useState(false);
  const open = async () => {
    setBusy(true);
    const job = await attempt(() => (practice ? practiseOn(circuit) : openOn(circuit)));
    setBusy(false);
    if (job) go({ screen: "job", job, show: practice ? "work" : "complaint" }, true);
  };
  return (
    <CommitKey look="answer" onPress={open}>
      <span class="answer-lines">
        <b>{circuit.title}</b>
        <span>{words.vehicle(circuit.vehicle, circuit.system_volts)}</span>
        <span class="soft">{circuit.summary}</span>
        {practice && busy && (
          <span role="status">{isReady() ? practiceWords.hiding : practiceWords.starting}</span>
        )}
      </span>
    </CommitKey>
  );
}
