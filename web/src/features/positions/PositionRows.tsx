/** One question for each position and load, with the words to choose from. */

import type { Controls, ControlView, LoadView } from "../../app/types";
import { Toggles } from "../../app/ui/Toggles";
import { keyOf, nameOf, type Told } from "./state";

interface RowsProps {
  positions: Controls[];
  loads: LoadView[];
  controls: ControlView[];
  told: Told;
  onTell: (told: Told) => void;
}

export function PositionRows({ positions, loads, controls, told, onTell }: RowsProps) {
  return (
    <>
      {positions.flatMap((position) =>
        loads.map((load) => {
          const key = keyOf(position, load.id);
          return (
            <Toggles
              key={key}
              question={`${nameOf(position, controls)}: ${load.name}`}
              options={load.states.map((state) => ({ value: state, name: state }))}
              chosen={told[key] ?? null}
              onChoose={(state) => onTell({ ...told, [key]: state })}
            />
          );
        }),
      )}
    </>
  );
}
