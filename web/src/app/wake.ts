/** Keeps the screen awake while a job is open. */

import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";

/** 'missing' where the browser has no way to do it or refuses. */
export const wake = signal<"off" | "held" | "missing">("off");

async function take(): Promise<WakeLockSentinel | null> {
  try {
    const lock = await navigator.wakeLock.request("screen");
    wake.value = "held";
    return lock;
  } catch {
    wake.value = "missing";
    return null;
  }
}

export function useWakeLock(): void {
  useEffect(() => {
    let lock = take();
    const again = () => {
      if (document.visibilityState === "visible") lock = take();
    };
    document.addEventListener("visibilitychange", again);
    return () => {
      document.removeEventListener("visibilitychange", again);
      void lock.then((held) => held?.release());
      wake.value = "off";
    };
  }, []);
}
