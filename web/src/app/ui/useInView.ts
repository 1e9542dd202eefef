/** Brings an element into view each time what it tells is told anew. */

import { useEffect, useRef } from "preact/hooks";

export function useInView<T extends HTMLElement>(told: unknown) {
  const shown = useRef<T>(null);
  useEffect(() => {
    if (told) shown.current?.scrollIntoView({ block: "nearest" });
  }, [told]);
  return shown;
}
