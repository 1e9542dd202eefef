/** One question for each position and load, with the words to choose from. */

import { useState } from "preact/hooks";
import type { Controls, ControlView, LoadView } from "../../app/types";
import { Ticks, Toggles } from "../../app/ui/Toggles";
import { isToldOf, keyOf, nameOf, type Told, without } from "./state";
import { words } from "./words";

/** From here on a person says first which loads it is about: nobody reads 144 questions. */
const MANY_ROWS = 24;

interface RowsProps {
  positions: Controls[];
  loads: LoadView[];
  controls: ControlView[];
  told: Told;
  onTell: (told: Told) => void;
}

export function PositionRows(props: RowsProps) {
  const { positions, loads, told, onTell } = props;
  const [picked, setPicked] = useState<string[]>([]);
  if (loads.length < 2 || positions.length * loads.length <= MANY_ROWS) return <Rows {...props} />;
  const shown = loads.filter(({ id }) => picked.includes(id) || isToldOf(id, told));
  const chosen = shown.map(({ id }) => id);
  const toggle = (id: string) => {
    setPicked(chosen.includes(id) ? picked.filter((one) => one !== id) : [...picked, id]);
    if (chosen.includes(id)) onTell(without(id, told));
  };
  return (
    <>
      <Ticks
        question={words.which}
        options={loads.map(({ id, name }) => ({ value: id, name }))}
        chosen={chosen}
        onToggle={toggle}
      />
      <Rows {...props} loads={shown} />
    </>
  );
}

function Rows({ positions, loads, controls, told, onTell }: RowsProps) {
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
