/** The check at a place the person chose, made anew when the set-up or the instrument changes. */

import { useEffect, useState } from "preact/hooks";
import { attempt, events } from "../../app/job";
import { ports } from "../../app/ports";
import type { Check, Controls } from "../../app/types";

export interface Asked {
  instrument: string;
  red: string;
  black: string;
  controls: Controls;
}

export function useCheckAt(asked: Asked): Check | null {
  const [check, setCheck] = useState<Check | null>(null);
  const key = JSON.stringify(asked);
  // The key stands for what is asked.
  useEffect(() => {
    let newest = true;
    setCheck(null);
    const request = { events: events.value, ...asked, apart: [], stand_in: {} };
    attempt(() => ports().core.call("check_at", request)).then((answer) => {
      if (newest && answer) setCheck(answer);
    });
    return () => {
      newest = false;
    };
  }, [key]);
  return check;
}
