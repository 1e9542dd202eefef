/** The explanation of a check's expected value in a sound circuit. */

import { useEffect, useState } from "preact/hooks";
import { attempt, events } from "../../app/job";
import { ports } from "../../app/ports";
import type { Explanation, ReadingTaken } from "../../app/types";

export function useWhy(record: ReadingTaken | null): Explanation | null {
  const [told, setTold] = useState<Explanation | null>(null);
  const key = JSON.stringify([record, events.value.length]);
  // The key stands for what is asked.
  useEffect(() => {
    let newest = true;
    setTold(null);
    if (record)
      attempt(() => ports().core.call("explain", requestFor(record))).then((answer) => {
        if (newest && answer) setTold(answer);
      });
    return () => {
      newest = false;
    };
  }, [key]);
  return told;
}

const requestFor = ({ instrument, red, black, setup }: ReadingTaken) => ({
  events: events.value,
  instrument,
  red: red ?? "",
  ...(black ? { black } : {}),
  controls: setup?.controls ?? {},
  apart: setup?.apart ?? [],
  stand_in: setup?.stand_in ?? {},
});
