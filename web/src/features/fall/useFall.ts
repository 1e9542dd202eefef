/** The voltage along the path in the positions asked about; made anew with every entry of the job. */

import { useEffect, useState } from "preact/hooks";
import { attempt, events } from "../../app/job";
import { ports } from "../../app/ports";
import type { Controls, FallView } from "../../app/types";

/** `controls` null asks for the positions of the last reading. */
export function useFall(controls: Controls | null): FallView | null {
  const [told, setTold] = useState<FallView | null>(null);
  const key = JSON.stringify([controls, events.value.length]);
  // The key stands for what is asked.
  useEffect(() => {
    let newest = true;
    attempt(() => ports().core.call("fall", { events: events.value, controls })).then((answer) => {
      if (newest && answer) setTold(answer);
    });
    return () => {
      newest = false;
    };
  }, [key]);
  return told;
}
