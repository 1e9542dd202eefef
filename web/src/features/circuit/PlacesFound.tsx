/** What turned up inside a wire or an unknown stretch: the sheet takes it in, earlier readings stay. */

import { useState } from "preact/hooks";
import { recordChange } from "../../app/job";
import type { PlaceFound } from "../../app/types";
import { CommitKey } from "../../app/ui/Key";
import { passable, stretchBehind, type Wire } from "./sheet";
import { words } from "./words";

type What = PlaceFound["what"];

export function PlacesFound({ wire }: { wire: Wire }) {
  const stretch = stretchBehind(wire);
  return stretch ? (
    <FoundIn inside={stretch.id} question={words.inStretch(stretch.name)} options={IN_STRETCH} />
  ) : (
    <FoundIn
      inside={wire.id}
      question={words.inWire(wire.id)}
      options={IN_WIRE}
      plugs={passable(wire)}
    />
  );
}

const INSIDE: What[] = ["plug", "fuse", "splice"];
export const BRANCHES: What[] = ["branch to a lamp", "branch to a motor", "branch to a heater"];
const IN_WIRE: What[] = [...INSIDE, ...BRANCHES];
const IN_STRETCH: What[] = [...INSIDE, "relay", "earth point", "plain wire"];

interface FoundInProps {
  inside: string;
  question: string;
  options: What[];
  /** Plugs that the wire may go through as well. */
  plugs?: string[];
}

export function FoundIn({ inside, question, options, plugs = [] }: FoundInProps) {
  const [at, setAt] = useState("");
  const keep = (what: What, plug = "") =>
    recordChange({ kind: "place found", body: { inside, what, at, plug } });
  return (
    <fieldset class="toggles">
      <legend>{question}</legend>
      <label class="field">
        {words.where}
        <input
          autoComplete="off"
          maxLength={120}
          value={at}
          onInput={(event) => setAt(event.currentTarget.value)}
        />
      </label>
      <div class="toggle-row">
        {options.map((what) => (
          <CommitKey key={what} onPress={() => keep(what)}>
            {words.found[what]}
          </CommitKey>
        ))}
        {plugs.map((plug) => (
          <CommitKey key={plug} onPress={() => keep("way of a plug", plug)}>
            {words.through(plug)}
          </CommitKey>
        ))}
      </div>
    </fieldset>
  );
}
