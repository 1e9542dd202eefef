/** Erasing one job, or everything; what would be lost is said before it is done. */

import { useState } from "preact/hooks";
import { attempt, leaveJob } from "../../app/job";
import { ports } from "../../app/ports";
import { back, go } from "../../app/route";
import { Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { useStored } from "../../app/useStored";
import type { JobSummary } from "../../storage";
import { saveJobs } from "../jobs/files";
import { words } from "./words";

/** A job with how many of its entries are in no saved file. */
interface Held extends JobSummary {
  readonly unsaved: number;
}

export function EraseScreen() {
  const held = useStored(heldNow) ?? [];
  const [chosen, setChosen] = useState<Held | "phone" | null>(null);
  if (chosen) return <Asked chosen={chosen} held={held} onKeep={() => setChosen(null)} />;
  return (
    <Screen name={words.name} keys={<Key onPress={back}>{words.back}</Key>}>
      <Trouble />
      <p class="do">{held.length > 0 ? words.which : words.none}</p>
      <div class="answers">
        {held.map((job) => (
          <Key key={job.id} look="answer" onPress={() => setChosen(job)}>
            <span class="answer-lines">
              <b>{job.title}</b>
              <span>{job.vehicle}</span>
              <span class="soft">
                {job.unsaved > 0 ? words.unsaved(job.unsaved) : words.inFile}
              </span>
            </span>
          </Key>
        ))}
        <Key look="answer" onPress={() => setChosen("phone")}>
          {words.phone}
        </Key>
      </div>
    </Screen>
  );
}

interface AskedProps {
  chosen: Held | "phone";
  held: readonly Held[];
  onKeep: () => void;
}

function Asked({ chosen, held, onKeep }: AskedProps) {
  const whole = chosen === "phone";
  const lost = (whole ? held : held.filter(({ id }) => id === chosen.id)).filter(
    ({ unsaved }) => unsaved > 0,
  );
  return (
    <Screen
      name={words.name}
      keys={
        <>
          <Key onPress={() => (whole ? saveJobs("all jobs") : saveJobs(chosen.title, chosen.id))}>
            {words.save}
          </Key>
          <div class="key-row">
            <CommitKey onPress={() => erase(whole ? null : chosen)}>
              {whole ? words.yesPhone : words.yesJob}
            </CommitKey>
            <Key look="main" onPress={onKeep}>
              {words.no}
            </Key>
          </div>
        </>
      }
    >
      <Trouble />
      <p class="do">{whole ? words.askPhone : words.askJob(chosen.title)}</p>
      <p>{whole ? words.meansPhone : words.meansJob}</p>
      {lost.length > 0 ? <p>{words.lost}</p> : <p>{words.safe}</p>}
      <ul>
        {lost.map(({ id, title, unsaved }) => (
          <li key={id}>
            <b>{title}</b>: {words.unsaved(unsaved)}
          </li>
        ))}
      </ul>
      <p class="soft">{words.copies}</p>
    </Screen>
  );
}

async function heldNow(): Promise<Held[]> {
  const { store } = ports();
  const [jobs, unsaved] = await Promise.all([store.jobs(), store.unexported()]);
  return jobs.map((job) => ({ ...job, unsaved: unsaved.get(job.id) ?? job.count }));
}

/** The page is loaded again afterwards: nothing of the job is left in its memory, nor in Python's. */
async function erase(job: Held | null): Promise<void> {
  const { store } = ports();
  leaveJob();
  const done = await attempt(async () => {
    await (job ? store.eraseJob(job.id) : store.erasePhone());
    return true;
  });
  if (!done) return;
  go({ screen: "jobs" }, true);
  location.reload();
}
