/** A face with the keys that turn it, and the line that says what is what in a way. */

import { useState } from "preact/hooks";
import type { ConnectorView, WayView } from "../../app/types";
import { Toggles } from "../../app/ui/Toggles";
import { Face, FaceKey, type Held, type Side } from "./Face";
import { words } from "./words";

const SIDES = [
  { value: "wire", name: words.wireSide },
  { value: "mating", name: words.matingSide },
] as const;

interface SidedProps {
  connector: ConnectorView;
  held: (way: WayView) => Held;
  lines: [string, string];
  way: string | null;
  onWay: (way: string) => void;
}

export function Sided({ connector, held, lines, way, onWay }: SidedProps) {
  const [side, setSide] = useState<Side>("wire");
  return (
    <>
      <Toggles question={words.seenFrom} options={SIDES} chosen={side} onChoose={setSide} />
      <Face key={side} connector={connector} side={side} held={held} now={way} onWay={onWay} />
      <FaceKey side={side} lines={lines} />
    </>
  );
}
