/** What a screen shows of the store, read again whenever something was stored. */

import { useEffect, useRef, useState } from "preact/hooks";
import { attempt, unasked } from "./job";
import { ports } from "./ports";

/** Null until it was read once. The person asked for the first reading, by opening the screen. */
export function useStored<T>(read: () => Promise<T>): T | null {
  const [found, setFound] = useState<T | null>(null);
  const isFirst = useRef(true);
  const { state, revision } = ports().store;
  const readable = state.value !== "opening";
  useEffect(() => {
    if (!readable) return;
    const run = isFirst.current ? attempt : unasked;
    isFirst.current = false;
    void run(read).then((now) => now !== null && setFound(() => now));
  }, [readable, revision.value]);
  return found;
}
