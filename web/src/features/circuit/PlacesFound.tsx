/** What turned up inside a wire or an unknown stretch: the sheet takes it in, earlier readings stay. */

import { useState } from "preact/hooks";
import { record } from "../../app/job";
import type { PlaceFound } from "../../app/types";
import { CommitKey } from "../../app/ui/Key";
import { stretchBehind, type Wire } from "./sheet";
import { words } from "./words";

type What = PlaceFound["what"];

export function PlacesFound({ wire }: { wire: Wire }) {
  const stretch = stretchBehind(wire);
  return stretch ? (
    <FoundIn inside={stretch.id} question={words.inStretch(stretch.name)} options={IN_STRETCH} />
  ) : (
    <FoundIn inside={wire.id} question={words.inWire(wire.id)} options={IN_WIRE} />
  );
}

const IN_WIRE: What[] = ["plug", "fuse", "splice"];
const IN_STRETCH: What[] = [...IN_WIRE, "relay", "earth point", "plain wire"];

function FoundIn({
  inside,
  question,
  options,
}: {
  inside: string;
  question: string;
  options: What[];
}) {
  const [at, setAt] = useState("");
  const keep = (what: What) => record([{ kind: "place found", body: { inside, what, at } }]);
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
      </div>
    </fieldset>
  );
}
