/** The diagram with what was opened of its folds; made anew with every entry of the job. */

import { signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { attempt, events, jobId } from "../../app/job";
import { ports } from "../../app/ports";
import type { Picture } from "./picture";

interface Opened {
  job: string | null;
  elements: string[];
}

const opened = signal<Opened>({ job: null, elements: [] });

/** Elements that are open though nothing asks for them. */
const openedHere = () => (opened.value.job === jobId.value ? opened.value.elements : []);

export function open(elements: string[]): void {
  opened.value = { job: jobId.value, elements: [...openedHere(), ...elements] };
}

export function foldAgain(): void {
  opened.value = { job: jobId.value, elements: [] };
}

/** `folded` is the job's own diagram, shown until the other is there. */
export function useDiagram(folded: Picture): { picture: Picture; isOpened: boolean } {
  const elements = openedHere();
  const [made, setMade] = useState<Picture | null>(null);
  const key = JSON.stringify([elements, events.value.length]);
  // The key stands for what is asked.
  useEffect(() => {
    let newest = true;
    if (elements.length === 0) setMade(null);
    else
      attempt(() => ports().core.call("diagram", { events: events.value, opened: elements })).then(
        (answer) => {
          if (newest && answer) setMade(answer);
        },
      );
    return () => {
      newest = false;
    };
  }, [key]);
  const isOpened = elements.length > 0;
  return { picture: (isOpened && made) || folded, isOpened };
}
