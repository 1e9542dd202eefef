/** The jobs on this phone: where each lives, when it was saved, and the way to a new one. */

import { ports, storeTrouble } from "../../app/ports";
import { go } from "../../app/route";
import { timeOf } from "../../app/time";
import { Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { useStored } from "../../app/useStored";
import type { JobSummary } from "../../storage";
import { words as practiceWords } from "../practice/words";
import { OfflineLines } from "./OfflineLines";
import { Rescue } from "./Rescue";
import { words } from "./words";

export function JobsScreen() {
  const jobs = useStored(() => ports().store.jobs());
  return (
    <Screen
      name={words.name}
      keys={
        <>
          <div class="key-row">
            <Key onPress={() => go({ screen: "settings" })}>{words.settings}</Key>
            <Key onPress={() => go({ screen: "practice" })}>{practiceWords.name}</Key>
          </div>
          <Key look="main" onPress={() => go({ screen: "new" })}>
            {words.newJob}
          </Key>
        </>
      }
    >
      <Trouble />
      {storeTrouble() && <Rescue />}
      {jobs?.length === 0 && <p class="do">{words.none}</p>}
      <ul class="jobs">
        {jobs?.map((job) => (
          <li key={job.id}>
            <JobKey job={job} />
          </li>
        ))}
      </ul>
      <OfflineLines />
      <p class="soft">{words.link}</p>
    </Screen>
  );
}

function JobKey({ job }: { job: JobSummary }) {
  const lines = [words.entries(job.count), words.saved(timeOf(job.lastAt)), words.where];
  return (
    <Key look="answer" onPress={() => go({ screen: "job", job: job.id, show: "work" })}>
      <span class="answer-lines">
        <b>{job.title}</b>
        <span>{job.vehicle}</span>
        <span class="soft">{lines.join(" · ")}</span>
      </span>
    </Key>
  );
}
