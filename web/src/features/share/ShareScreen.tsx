/** The job as a link in the fragment of the address, or as a file where that would be too long. */

import { useEffect, useState } from "preact/hooks";
import { attempt, events, jobId, view } from "../../app/job";
import { ports } from "../../app/ports";
import { back } from "../../app/route";
import type { LinkMade } from "../../app/types";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { saveJobs } from "../jobs/files";
import { photos } from "../photos/state";
import { words } from "./words";

export function ShareScreen() {
  const made = useLink();
  const onlyInFile = useOnlyInFile();
  const canMake = ports().core.state.value.state !== "failed";
  const [said, setSaid] = useState("");
  const address = made?.text ? addressOf(made.text) : null;
  const beyond = made?.text === "";
  const copy = async () => address && setSaid(await copied(address));
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      keys={
        <>
          {address && "share" in navigator && <Key onPress={() => send(address)}>{words.send}</Key>}
          <Key onPress={saveJob}>{words.file}</Key>
          <div class="key-row">
            <Key look="small" onPress={back}>
              {words.back}
            </Key>
            {!beyond && (
              <Key look="main" off={!address} onPress={copy}>
                {words.copy}
              </Key>
            )}
          </div>
        </>
      }
    >
      <Trouble />
      {!beyond && <p>{words.inside}</p>}
      {onlyInFile > 0 && <p class="trouble">{words.onlyInFile(onlyInFile)}</p>}
      {photos.value.length > 0 && <p class="trouble">{words.photos(photos.value.length)}</p>}
      {made && <Length made={made} />}
      {made === undefined && canMake && <p role="status">{words.making}</p>}
      <p role="status" class="said">
        {said}
      </p>
      {address && (
        <textarea class="link" readOnly rows={4} aria-label={words.title} value={address} />
      )}
    </Screen>
  );
}

function Length({ made }: { made: LinkMade }) {
  if (!made.text) return <p class="trouble">{words.tooLarge}</p>;
  if (made.too_long) return <p class="trouble">{words.tooLong(made.length)}</p>;
  return <p>{words.length(made.length)}</p>;
}

/** Undefined while it is being made, null where none could be. */
function useLink(): LinkMade | null | undefined {
  const [made, setMade] = useState<LinkMade | null>();
  const all = events.value;
  const core = ports().core.state.value.state;
  // Asked again when Python was started again.
  useEffect(() => {
    if (all.length === 0) return;
    attempt(() => ports().core.call("link_make", { events: all })).then(setMade);
  }, [all, core === "failed"]);
  return made;
}

/** How many entries hold something that the link does not. */
function useOnlyInFile(): number {
  const [count, setCount] = useState(0);
  const all = events.value;
  const job = jobId.value;
  useEffect(() => {
    const none = () => setCount(0);
    if (job) ports().store.onlyInFile(job).then(setCount, none);
  }, [all, job]);
  return count;
}

const addressOf = (text: string) => `${location.origin}${location.pathname}#${text}`;

async function saveJob(): Promise<void> {
  if (jobId.value) await saveJobs(view.value?.title ?? "job", jobId.value);
}

async function send(url: string): Promise<void> {
  await navigator.share({ title: words.title, url }).catch(() => undefined);
}

async function copied(text: string): Promise<string> {
  try {
    await navigator.clipboard.writeText(text);
    return words.copied;
  } catch {
    return words.notCopied;
  }
}
