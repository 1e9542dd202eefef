/** Keys that commit: once per double tap, and nothing in the first moment of a screen. */

import { useEffect, useRef, useState } from "preact/hooks";

/** Wet or greasy glass makes doubles: a second touch within this time is the same touch. */
const SAME_TOUCH_MS = 400;
/** A hand that was already on its way answers the screen before, not this one. */
const FIRST_MOMENT_MS = 1000;

let lastCommit = Number.NEGATIVE_INFINITY;

/** Runs `act` unless a commit ran within the time of one touch. */
function once(act: () => unknown): void {
  const now = performance.now();
  if (now - lastCommit < SAME_TOUCH_MS) return;
  lastCommit = now;
  act();
}

/** False while a screen is too new, and while an earlier press is still being carried out. */
export function useCommit(act: () => unknown): { open: boolean; press: () => void } {
  const [awake, setAwake] = useState(false);
  const [busy, setBusy] = useState(false);
  const alive = useRef(true);
  useEffect(() => {
    const timer = setTimeout(() => setAwake(true), FIRST_MOMENT_MS);
    return () => {
      alive.current = false;
      clearTimeout(timer);
    };
  }, []);
  const press = () =>
    once(async () => {
      setBusy(true);
      try {
        await act();
      } finally {
        if (alive.current) setBusy(false);
      }
    });
  return { open: awake && !busy, press };
}
