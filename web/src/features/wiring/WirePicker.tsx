/** The wires of the half, to be laid into the way that was tapped. */

import type { ConnectorView } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { COLOURS } from "../circuit/colours";
import { SPARE } from "./state";
import { words } from "./words";

interface PickerProps {
  connector: ConnectorView;
  way: string;
  onPick: (wire: string | null) => void;
}

export function WirePicker({ connector, way, onPick }: PickerProps) {
  return (
    <fieldset class="toggles">
      <legend>{words.inWay(way)}</legend>
      <div class="wires">
        {connector.wires.map((wire) => (
          <Key key={wire.id} label={`${wire.colour} ${wire.name}`} onPress={() => onPick(wire.id)}>
            <span class="answer-lines">
              <b>{wire.colour || "?"}</b>
              <span class="soft">{wire.name}</span>
            </span>
          </Key>
        ))}
        <Key onPress={() => onPick(null)}>{words.empty}</Key>
      </div>
      <details>
        <summary>{words.spare}</summary>
        <p>{words.spareColour}</p>
        <div class="toggle-row">
          {[...COLOURS, ""].map((code) => (
            <Key key={code} onPress={() => onPick(`${SPARE}${code}`)}>
              {code || words.noColour}
            </Key>
          ))}
        </div>
      </details>
    </fieldset>
  );
}
