/** What turned up inside a wire or an unknown stretch: the sheet takes it in, earlier readings stay. */

import { useState } from "preact/hooks";
import { recordChange } from "../../app/job";
import type { PlaceFound } from "../../app/types";
import { CommitKey, Key } from "../../app/ui/Key";
import { PlaceChoice } from "./PlaceChoice";
import { earthPoints, passable, stretchBehind, type Wire } from "./sheet";
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
export const BRANCHES: What[] = [
  "branch to a lamp",
  "branch to a motor",
  "branch to a heater",
  "branch",
];
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
  const [branch, setBranch] = useState<What | null>(null);
  const keep = (what: What, more: Partial<PlaceFound> = {}) =>
    recordChange({ kind: "place found", body: { inside, what, at, ...more } });
  if (branch) {
    const end = (to: string) => keep(branch, { to });
    return <BranchEnd branch={branch} onEnd={end} onBack={() => setBranch(null)} />;
  }
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
        {options.map((what) =>
          BRANCHES.includes(what) ? (
            <Key key={what} onPress={() => setBranch(what)}>
              {words.found[what]}
            </Key>
          ) : (
            <CommitKey key={what} onPress={() => keep(what)}>
              {words.found[what]}
            </CommitKey>
          ),
        )}
        {plugs.map((plug) => (
          <CommitKey key={plug} onPress={() => keep("way of a plug", { plug })}>
            {words.through(plug)}
          </CommitKey>
        ))}
      </div>
    </fieldset>
  );
}

interface BranchEndProps {
  branch: What;
  onEnd: (to: string) => unknown;
  onBack: () => void;
}

/** Where a branch ends: a load's at an earth point, its own or one that is there; another anywhere. */
function BranchEnd({ branch, onEnd, onBack }: BranchEndProps) {
  const [place, setPlace] = useState("");
  const plain = branch === "branch";
  return (
    <fieldset class="toggles">
      <legend>{plain ? words.branchEnds : words.branchEarth(words.found[branch])}</legend>
      <div class="toggle-row">
        <CommitKey onPress={() => onEnd("")}>{plain ? words.endsOpen : words.ownEarth}</CommitKey>
        {earthPoints().map(({ id, name }) => (
          <CommitKey key={id} onPress={() => onEnd(`${id}.1`)}>
            {name.includes(id) ? name : `${name} ${id}`}
          </CommitKey>
        ))}
        <Key onPress={onBack}>{words.back}</Key>
      </div>
      {plain && (
        <>
          <PlaceChoice
            question={words.endsAt}
            none={words.noPlace}
            place={place}
            onChoose={setPlace}
          />
          <CommitKey off={!place} onPress={() => onEnd(place)}>
            {words.endsThere}
          </CommitKey>
        </>
      )}
    </fieldset>
  );
}
