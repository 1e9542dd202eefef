/** The colour of the wire in a way: one of the sheet's with one tap, or any by its two colours. */

import { useState } from "preact/hooks";
import type { ConnectorView } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { Toggles } from "../../app/ui/Toggles";
import { COLOURS } from "../circuit/colours";
import { codeOf, numberOf } from "./state";
import { words } from "./words";

interface PickerProps {
  connector: ConnectorView;
  way: string;
  /** Colours in the way, joined by "+"; null is an empty way. */
  held: string | null | undefined;
  /** The next way that nobody has looked at. */
  next: string | null;
  onHeld: (held: string | null) => void;
  onNext: (way: string | null) => void;
  onRestEmpty: () => void;
}

const codes = COLOURS.map((code) => ({ value: code, name: code }));

export function ColourPicker({
  connector,
  way,
  held,
  next,
  onHeld,
  onNext,
  onRestEmpty,
}: PickerProps) {
  const [beside, setBeside] = useState(false);
  const others = held && beside ? held.split("+").slice(0, -1) : [];
  const newest = held === null || held === undefined ? null : (held.split("+").at(-1) ?? "");
  const [base = "", second = ""] = (newest ?? "").split("/");
  const lay = (code: string) => onHeld([...others, code].join("+"));
  const layAndGo = (code: string | null) => {
    if (code === null) onHeld(null);
    else lay(code);
    onNext(next);
  };
  const another = () => {
    onHeld(`${held ?? ""}+`);
    setBeside(true);
  };
  const listed = [...new Set(connector.wires.flatMap(({ colour }) => codeOf(colour) ?? []))];
  return (
    <fieldset class="toggles">
      <legend>{words.colourIn(numberOf(connector, way))}</legend>
      <div class="toggle-row">
        {listed.map((colour) => (
          <Key key={colour} look="small" onPress={() => layAndGo(colour)}>
            {colour}
          </Key>
        ))}
        <Key look="small" onPress={() => layAndGo(null)}>
          {words.empty}
        </Key>
        <Key look="small" onPress={() => layAndGo("")}>
          {words.cannotTell}
        </Key>
      </div>
      <Toggles
        question={words.spareColour}
        options={codes}
        chosen={base || null}
        onChoose={(code) => lay(code)}
      />
      {base && (
        <Toggles
          question={words.second}
          options={[
            { value: "", name: words.noSecond },
            ...codes.filter(({ value }) => value !== base),
          ]}
          chosen={second}
          onChoose={(code) => lay(code ? `${base}/${code}` : base)}
        />
      )}
      {base && (
        <Key pressed={beside} onPress={another}>
          {words.beside}
        </Key>
      )}
      <div class="toggle-row">
        <Key onPress={() => onNext(next)}>
          {next === null ? words.done : words.next(numberOf(connector, next))}
        </Key>
        {next !== null && <Key onPress={onRestEmpty}>{words.restEmpty}</Key>}
      </div>
    </fieldset>
  );
}
