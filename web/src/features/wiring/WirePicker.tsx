/** The wires of the half, to be laid into the way that was tapped. */

import { useState } from "preact/hooks";
import type { ConnectorView } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { COLOURS } from "../circuit/colours";
import { numberOf, SPARE } from "./state";
import { words } from "./words";

interface PickerProps {
  connector: ConnectorView;
  way: string;
  /** A wire was laid into it already. */
  holds: boolean;
  onPick: (wire: string | null, beside: boolean) => void;
}

export function WirePicker({ connector, way, holds, onPick }: PickerProps) {
  const [beside, setBeside] = useState(false);
  return (
    <fieldset class="toggles">
      <legend>{words.inWay(numberOf(connector, way))}</legend>
      <div class="wires">
        {connector.wires.map((wire) => (
          <Key
            key={wire.id}
            label={`${wire.colour} ${wire.name}`}
            onPress={() => onPick(wire.id, beside)}
          >
            <span class="answer-lines">
              <b>{wire.colour || "?"}</b>
              <span class="soft">{wire.name}</span>
            </span>
          </Key>
        ))}
        <Key onPress={() => onPick(null, false)}>{words.empty}</Key>
      </div>
      {holds && (
        <Key pressed={beside} onPress={() => setBeside(!beside)}>
          {words.beside}
        </Key>
      )}
      <details>
        <summary>{words.spare}</summary>
        <p>{words.spareColour}</p>
        <div class="toggle-row">
          {[...COLOURS, ""].map((code) => (
            <Key key={code} onPress={() => onPick(`${SPARE}${code}`, beside)}>
              {code || words.noColour}
            </Key>
          ))}
        </div>
      </details>
    </fieldset>
  );
}
