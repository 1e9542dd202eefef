/** A job from a link: shown first, taken over as a new job only when the person says so. */

import { useEffect, useState } from "preact/hooks";
import { attempt } from "../../app/job";
import { ports } from "../../app/ports";
import { go } from "../../app/route";
import type { Event, LinkOpened } from "../../app/types";
import { Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { newId, standingOf } from "../../storage";
import { photosIn } from "../photos/state";
import { forgetLink, link } from "./state";
import { words } from "./words";

type Reading =
  | { is: "reading" }
  | { is: "opened"; job: LinkOpened }
  | { is: "failed"; why: string };

export function OpenLinkScreen() {
  const reading = useReading();
  const leave = () => {
    forgetLink();
    go({ screen: "jobs" }, true);
  };
  const take = async (opened: LinkOpened) => {
    const job = newId();
    // The core leaves no field of an event out.
    const events = opened.events as Required<Event>[];
    if (!(await attempt(() => ports().store.adopt(events, job)))) return;
    forgetLink();
    go({ screen: "job", job, show: "work" }, true);
  };
  return (
    <Screen
      name={reading.is === "failed" ? words.failed : words.name}
      keys={
        <>
          <Key onPress={leave}>{words.leave}</Key>
          {reading.is === "opened" && (
            <CommitKey look="main" onPress={() => take(reading.job)}>
              {words.take}
            </CommitKey>
          )}
        </>
      }
    >
      <Trouble />
      {reading.is === "reading" && <p role="status">{words.reading}</p>}
      {reading.is === "failed" && <p role="alert">{reading.why}</p>}
      {reading.is === "opened" && (
        <>
          <p class="do">{reading.job.title}</p>
          <p>{reading.job.vehicle}</p>
          <p class="said">{words.readings(reading.job.readings)}</p>
          {reading.job.more_inside && (
            <p class="trouble" role="alert">
              {words.moreInside}
            </p>
          )}
          <WithoutPhotos job={reading.job} />
          <p class="soft">{words.shown}</p>
        </>
      )}
    </Screen>
  );
}

function WithoutPhotos({ job }: { job: LinkOpened }) {
  const { length } = photosIn(standingOf(job.events));
  return length > 0 ? <p>{words.photos(length)}</p> : null;
}

function useReading(): Reading {
  const [reading, setReading] = useState<Reading>({ is: "reading" });
  const text = link.value;
  const core = ports().core.state.value.state;
  // Asked again when Python was started again.
  useEffect(() => {
    if (text === null) {
      setReading({ is: "failed", why: words.gone });
      return undefined;
    }
    setReading({ is: "reading" });
    let isNewest = true;
    const show = (read: Reading) => isNewest && setReading(read);
    ports()
      .core.call("link_open", { text })
      .then(
        (job) => show({ is: "opened", job }),
        (error) => show({ is: "failed", why: String(error.message) }),
      );
    return () => {
      isNewest = false;
    };
  }, [text, core === "failed"]);
  return reading;
}
