/** Positions told at any time, asked for or not. */

import { view } from "../../app/job";
import { Waiting } from "../step/Waiting";
import { PositionsScreen } from "./PositionsScreen";
import { words } from "./words";

export function AnytimeScreen() {
  const now = view.value;
  if (!now) return <Waiting />;
  const ask = now.asked_positions;
  const loads = now.loads.map(({ id }) => id);
  return (
    <PositionsScreen
      step={{
        kind: "positions",
        goal: words.anytime,
        why: "",
        cautions: [],
        ask,
        loads,
        engine: null,
      }}
      view={now}
    />
  );
}
