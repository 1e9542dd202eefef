/** What is asked of a reading when the core cannot ask: unit, places, number, positions. */

import { opened } from "../../app/facts";
import type { Controls } from "../../app/types";
import { Toggles } from "../../app/ui/Toggles";
import { type Place, placesOnSheet, wiresOnSheet } from "./places";
import { isClamp, type Typed } from "./state";
import { words } from "./words";

const UNITS = (["V", "mV", "Ω", "A"] as const).map((unit) => ({ value: unit, name: unit }));

interface FormProps {
  now: Typed;
  onType: (typed: Typed) => void;
}

export function RecordForm({ now, onType }: FormProps) {
  return (
    <>
      <Toggles
        question={words.unit}
        options={UNITS}
        chosen={now.unit}
        onChoose={(unit) => onType({ ...now, unit, red: "" })}
      />
      {isClamp(now) ? <Clamped now={now} onType={onType} /> : <Probed now={now} onType={onType} />}
      <label class="field">
        {words.value}
        <input
          class="typed"
          inputMode="decimal"
          autoComplete="off"
          maxLength={12}
          value={now.typed}
          onInput={(event) => onType({ ...now, typed: event.currentTarget.value })}
        />
      </label>
      <ControlFields controls={now.controls} onSet={(controls) => onType({ ...now, controls })} />
    </>
  );
}

function Clamped({ now, onType }: FormProps) {
  const choose = (red: string) => onType({ ...now, red });
  return <Chosen name={words.wire} places={wiresOnSheet()} value={now.red} onChoose={choose} />;
}

const NONE: Place = { id: "", name: "" };

function Probed({ now, onType }: FormProps) {
  const places = placesOnSheet();
  const earth = { id: "earth", name: words.earth };
  return (
    <>
      <Chosen
        name={words.place}
        places={places}
        value={now.red}
        onChoose={(red) => onType({ ...now, red })}
      />
      <Chosen
        name={words.black}
        places={[earth, ...places]}
        value={now.black}
        onChoose={(black) => onType({ ...now, black })}
      />
    </>
  );
}

interface ChosenProps {
  name: string;
  places: Place[];
  value: string;
  onChoose: (id: string) => void;
}

function Chosen({ name, places, value, onChoose }: ChosenProps) {
  const options = places.some(({ id }) => id === value) ? places : [NONE, ...places];
  return (
    <label class="field">
      {name}
      <select value={value} onChange={(event) => onChoose(event.currentTarget.value)}>
        {options.map((place) => (
          <option key={place.id} value={place.id}>
            {place.name}
          </option>
        ))}
      </select>
    </label>
  );
}

interface SheetControl {
  part: string;
  name: string;
  positions: { id: string; name: string }[];
}

interface ControlProps {
  controls: Controls;
  onSet: (controls: Controls) => void;
}

function ControlFields({ controls, onSet }: ControlProps) {
  const written = (opened.value?.sheet.controls ?? []) as SheetControl[];
  return (
    <>
      {written.map(({ part, name, positions }) => (
        <Toggles
          key={part}
          question={name}
          options={positions.map((position) => ({ value: position.id, name: position.name }))}
          chosen={controls[part] ?? null}
          onChoose={(position) => onSet({ ...controls, [part]: position })}
        />
      ))}
    </>
  );
}
