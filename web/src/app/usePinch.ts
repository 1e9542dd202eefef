/** Two fingers on an element: by how much they went apart since they were last felt. */

import { useEffect } from "preact/hooks";

export function usePinch(
  frame: { current: HTMLElement | null },
  zoom: (factor: number) => void,
): void {
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
