/** An end that is not as the sheet has it: which wire ends elsewhere, or which one more ends there. */

import { useState } from "preact/hooks";
import { recordChange } from "../../app/job";
import type { EndsStep, EndView, RunView, WireFollowed } from "../../app/types";
import { CommitKey } from "../../app/ui/Key";
import { PlaceChoice } from "../circuit/PlaceChoice";
import { FarEnd, runTo } from "./FarEnd";
import { words } from "./words";

/** One more wire at an end, or a wire of the sheet that is not there. */
interface Oddity {
  name: string;
  at: EndView;
  gone: RunView | null;
}

export function Otherwise({ step }: { step: EndsStep }) {
  const [odd, setOdd] = useState<Oddity | null>(null);
  const [run, setRun] = useState<RunView | null>(null);
  const [place, setPlace] = useState("");
  const oddities = step.ends.flatMap(odditiesAt);
  const choose = (name: string) => {
    setOdd(oddities.find((each) => each.name === name) ?? null);
    setRun(null);
    setPlace("");
  };
  const found = odd && bodyOf(odd, run, place);
  const keep = () => found && recordChange({ kind: "wire followed", body: found });
  return (
    <div class="stack">
      <label class="field">
        {words.what}
        <select value={odd?.name ?? ""} onChange={(event) => choose(event.currentTarget.value)}>
          <option value="">{words.choose}</option>
          {oddities.map(({ name }) => (
            <option key={name}>{name}</option>
          ))}
        </select>
      </label>
      {odd && <p class="do">{odd.name}.</p>}
      {odd && !odd.gone && (
        <>
          <FarEnd
            question={words.whereFrom}
            runs={step.elsewhere.filter(({ point, far }) => ![point, far].includes(odd.at.point))}
            chosen={run}
            onChoose={setRun}
          />
          <p class="soft">{words.notListed}</p>
        </>
      )}
      {odd?.gone && (
        <PlaceChoice
          question={words.whereTo}
          none={words.choose}
          place={place}
          onChoose={setPlace}
          but={odd.at.point}
          among={step.places}
        />
      )}
      <CommitKey look="main" off={!found} onPress={keep}>
        {words.keep}
      </CommitKey>
    </div>
  );
}

function odditiesAt(at: EndView): Oddity[] {
  const gone = at.runs.map((run) => ({ name: words.away(run.name, at.name), at, gone: run }));
  return [...gone, { name: words.more(at.name), at, gone: null }];
}

function bodyOf({ at, gone }: Oddity, run: RunView | null, place: string): WireFollowed | null {
  if (!gone) return run && runTo(run, at.point);
  return place ? { wire: gone.wire, start: gone.point, end: place } : null;
}
