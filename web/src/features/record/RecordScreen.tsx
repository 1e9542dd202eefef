/** A reading without the core: place, value, unit and positions, kept as typed. */

import { useDraft } from "../../app/draft";
import { opened } from "../../app/facts";
import { jobId, record } from "../../app/job";
import { inBaseUnit, shown } from "../../app/number";
import { back } from "../../app/route";
import type { Controls } from "../../app/types";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { placesOnSheet } from "./places";
import { words } from "./words";

interface Typed {
  red: string;
  black: string;
  typed: string;
  unit: "V" | "mV" | "Ω" | "A";
  controls: Controls;
}

const EMPTY: Typed = { red: "", black: "earth", typed: "", unit: "V", controls: {} };
const INSTRUMENT = { V: "voltmeter", mV: "voltmeter", Ω: "ohmmeter", A: "clamp" } as const;
const UNITS = (["V", "mV", "Ω", "A"] as const).map((unit) => ({ value: unit, name: unit }));

export function RecordScreen() {
  const draft = useDraft<Typed>(`record.${jobId.value}`, EMPTY);
  const now = draft.value.value;
  const value = inBaseUnit(now.typed, now.unit);
  const ready = value !== null && now.red !== "";
  const keep = async () => {
    const body = {
      instrument: INSTRUMENT[now.unit],
      red: now.red,
      black: now.black,
      setup: { controls: now.controls },
      value,
      typed: `${now.typed} ${now.unit}`,
    };
    if (!(await record([{ kind: "reading taken", body }]))) return;
    draft.clear();
    back();
  };
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      keys={
        <div class="key-row">
          <Key look="small" onPress={back}>
            {words.back}
          </Key>
          <CommitKey look="main" off={!ready} onPress={keep}>
            {ready ? words.keep(`${shown(now.typed)} ${now.unit}`) : words.first}
          </CommitKey>
        </div>
      }
    >
      <Trouble />
      <p class="soft">{words.why}</p>
      <RecordForm now={now} onType={draft.set} />
    </Screen>
  );
}

function RecordForm({ now, onType }: { now: Typed; onType: (typed: Typed) => void }) {
  return (
    <>
      <PlaceField name={words.place} value={now.red} onChoose={(red) => onType({ ...now, red })} />
      <PlaceField
        name={words.black}
        value={now.black}
        earth
        onChoose={(black) => onType({ ...now, black })}
      />
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
      <Toggles
        question={words.unit}
        options={UNITS}
        chosen={now.unit}
        onChoose={(unit) => onType({ ...now, unit })}
      />
      <ControlFields controls={now.controls} onSet={(controls) => onType({ ...now, controls })} />
    </>
  );
}

interface FieldProps {
  name: string;
  value: string;
  earth?: boolean;
  onChoose: (place: string) => void;
}

function PlaceField({ name, value, earth, onChoose }: FieldProps) {
  return (
    <label class="field">
      {name}
      <select value={value} onChange={(event) => onChoose(event.currentTarget.value)}>
        {earth ? <option value="earth">{words.earth}</option> : <option value="" />}
        {placesOnSheet().map((place) => (
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

function ControlFields({
  controls,
  onSet,
}: {
  controls: Controls;
  onSet: (controls: Controls) => void;
}) {
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
