/** The wires of the half, to be laid into the way that was tapped. */

import type { ConnectorView } from "../../app/types";
import { Key } from "../../app/ui/Key";
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
    </fieldset>
  );
}
