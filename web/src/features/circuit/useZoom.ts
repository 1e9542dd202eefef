/** How large the diagram is drawn: keys for it, and two fingers as an extra. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { Diagram } from "../../app/types";

/** Pixels of one grid square at which a place can be tapped well. */
const TAPPABLE = 56;
const SMALLEST = 16;
const LARGEST = 160;

const within = (scale: number) => Math.min(LARGEST, Math.max(SMALLEST, scale));

export function useZoom(diagram: Diagram) {
  const frame = useRef<HTMLElement>(null);
  const [scale, setScale] = useState(TAPPABLE);
  const zoom = (factor: number) => setScale((now) => within(now * factor));
  const fit = () => {
    if (frame.current) setScale(within(frame.current.clientWidth / diagram.width));
  };
  usePinch(frame, zoom);
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
