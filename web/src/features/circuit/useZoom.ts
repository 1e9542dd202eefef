/** How large the diagram is drawn: keys for it, and two fingers as an extra. */

import { useEffect, useRef, useState } from "preact/hooks";
import { MARGIN, type Picture } from "./picture";

/** Pixels of one grid square at first view. */
const FIRST = 44;
const SMALLEST = 16;
const LARGEST = 160;

const within = (scale: number) => Math.min(LARGEST, Math.max(SMALLEST, scale));

export function useZoom({ width }: Picture) {
  const frame = useRef<HTMLElement>(null);
  const [scale, setScale] = useState(FIRST);
  const zoom = (factor: number) => setScale((now) => within(now * factor));
  const fit = () => {
    if (frame.current) setScale(within(frame.current.clientWidth / (width + 2 * MARGIN)));
  };
  usePinch(frame, zoom);
  useEffect(() => {
    const now = frame.current?.querySelector(".place-ring");
    now?.scrollIntoView({ block: "center", inline: "center" });
  }, []);
  return { frame, scale, zoom, fit };
}

function usePinch(frame: { current: HTMLElement | null }, zoom: (factor: number) => void): void {
  useEffect(() => {
    const element = frame.current;
    if (!element) return;
    let apart = 0;
    const move = (event: TouchEvent) => {
      const [a, b] = event.touches;
      if (!a || !b) return;
      event.preventDefault();
      const now = Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY);
      if (apart > 0) zoom(now / apart);
      apart = now;
    };
    const end = () => {
      apart = 0;
    };
    element.addEventListener("touchmove", move, { passive: false });
    element.addEventListener("touchend", end);
    return () => {
      element.removeEventListener("touchmove", move);
      element.removeEventListener("touchend", end);
    };
  }, [frame]);
}
