/** The end of a practice job: what was hidden, and both roads side by side. */

import { useEffect, useState } from "preact/hooks";
import { attempt, events } from "../../app/job";
import { ports } from "../../app/ports";
import { back, go } from "../../app/route";
import type { PracticeEnd, Road } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { words } from "./words";

export function EndScreen() {
  const told = useEnd();
  return (
    <Screen
      name={words.hidden}
      above={<JobHead />}
      bar={<Bar />}
      keys={
        <div class="key-row">
          <Key look="small" onPress={back}>
            {words.back}
          </Key>
          <Key look="main" onPress={() => go({ screen: "practice" })}>
            {words.again}
          </Key>
        </div>
      }
    >
      <Trouble />
      {told ? <Told told={told} /> : <p role="status">{words.working}</p>}
    </Screen>
  );
}

function useEnd(): PracticeEnd | null {
  const [told, setTold] = useState<PracticeEnd | null>(null);
  const { length } = events.value;
  // Asked again once the job's events are there, or Python is.
  useEffect(() => {
    if (length === 0) return;
    const request = { events: events.value };
    attempt(() => ports().core.call("practice_end", request)).then(setTold);
  }, [length, ports().core.state.value.state]);
  return told;
}

function Told({ told }: { told: PracticeEnd }) {
  return (
    <>
      <ul class="plain">
        {told.hidden.map((line) => (
          <li class="said" key={line}>
            {line}
          </li>
        ))}
      </ul>
      <p class="left">
        {told.left.length ? `${words.left}: ${told.left.join(", ")}` : words.nothingLeft}
      </p>
      <Way title={words.own} road={told.own} />
      <Way title={words.footwells} road={told.footwells} />
    </>
  );
}

function Way({ title, road }: { title: string; road: Road }) {
  return (
    <section class="block">
      <h2>{title}</h2>
      <p class="left">{words.cost(road.checks, road.minutes)}</p>
      {road.lines.length === 0 && <p class="soft">{words.nothingDone}</p>}
      <ol class="steps">
        {road.lines.map((line, step) => (
          <li key={step}>{line}</li>
        ))}
      </ol>
    </section>
  );
}
