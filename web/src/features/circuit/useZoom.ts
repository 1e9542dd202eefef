/** How large the diagram is drawn: keys for it, and two fingers as an extra. */

import { useEffect, useRef, useState } from "preact/hooks";
import { usePinch } from "../../app/usePinch";
import { type Picture, widthOf } from "./picture";

/** Pixels of one grid square at first view. */
const FIRST = 44;
const SMALLEST = 8;
const LARGEST = 160;

const within = (scale: number) => Math.min(LARGEST, Math.max(SMALLEST, scale));

export function useZoom(picture: Picture) {
  const frame = useRef<HTMLElement>(null);
  const [scale, setScale] = useState(FIRST);
  const zoom = (factor: number) => setScale((now) => within(now * factor));
  const fit = () => {
    if (frame.current) setScale(within(frame.current.clientWidth / widthOf(picture)));
  };
  usePinch(frame, zoom);
  useEffect(() => {
    const now = frame.current?.querySelector(".place-ring");
    now?.scrollIntoView({ block: "center", inline: "center" });
  }, []);
  return { frame, scale, zoom, fit };
}
