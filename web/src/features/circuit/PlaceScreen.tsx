/** One place: what to expect there now, what was measured, and the way to measure it. */

import { useState } from "preact/hooks";
import { view } from "../../app/job";
import { back } from "../../app/route";
import type { Controls, JobView, PlaceView } from "../../app/types";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { Expected } from "../check/Expected";
import { choose } from "../check/state";
import { WhyKey } from "../why/WhyKey";
import { Facts } from "./Facts";
import { instrumentsAtHand } from "./instruments";
import { type Asked, useCheckAt } from "./useCheckAt";
import { words } from "./words";

export function PlaceScreen({ about }: { about?: string | undefined }) {
  const now = view.value;
  const place = now?.diagram.places.find(({ id }) => id === about);
  if (!now || !place)
    return (
      <Screen name={words.name} keys={<Key onPress={back}>{words.back}</Key>}>
        {words.later}
      </Screen>
    );
  return <Place key={place.id} place={place} now={now} />;
}

function Place({ place, now }: { place: PlaceView; now: JobView }) {
  const [asked, setAsked] = useState<Asked>(() => firstAsked(place, now));
  const check = useCheckAt(asked);
  return (
    <Screen
      name={place.name}
      above={<JobHead />}
      keys={
        <div class="key-row">
          <Key look="small" onPress={back}>
            {words.back}
          </Key>
          <Key look="main" off={!check} onPress={() => check && choose(check)}>
            {words.measure}
          </Key>
        </div>
      }
    >
      <Trouble />
      <p>
        {words.measured}: <b>{place.measured || words.notMeasured}</b>
      </p>
      {check ? <Expected check={check} /> : <p class="soft">{words.reading}</p>}
      {check && <WhyKey check={check} />}
      <SetupForm asked={asked} onAsk={setAsked} now={now} />
      <Facts place={place.id} />
    </Screen>
  );
}

/** The place as the step now has it, or at rest. */
function firstAsked(place: PlaceView, now: JobView): Asked {
  const { step } = now;
  const controls = step.kind === "check" ? (step.check.record.setup?.controls ?? {}) : {};
  return {
    instrument: instrumentsAtHand()[0]?.value ?? "eyes",
    red: place.id,
    black: "earth",
    controls,
  };
}

interface FormProps {
  asked: Asked;
  onAsk: (asked: Asked) => void;
  now: JobView;
}

function SetupForm({ asked, onAsk, now }: FormProps) {
  const set = (control: string, position: string): Controls => ({
    ...asked.controls,
    [control]: position,
  });
  return (
    <>
      {now.controls.map((control) => (
        <Toggles
          key={control.id}
          question={control.name}
          options={control.positions.map(({ id, name }) => ({ value: id, name }))}
          chosen={asked.controls[control.id] ?? null}
          onChoose={(position) => onAsk({ ...asked, controls: set(control.id, position) })}
        />
      ))}
      <Toggles
        question={words.with}
        options={instrumentsAtHand()}
        chosen={asked.instrument}
        onChoose={(instrument) => onAsk({ ...asked, instrument })}
      />
      <label class="field">
        {words.black}
        <select
          value={asked.black}
          onChange={(event) => onAsk({ ...asked, black: event.currentTarget.value })}
        >
          <option value="earth">{words.earth}</option>
          {now.diagram.places.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
    </>
  );
}
