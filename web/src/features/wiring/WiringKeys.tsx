/** The keys below a connector: keep what was found, then say that the wires were moved. */

import type { Draft } from "../../app/draft";
import { record, working } from "../../app/job";
import { back, show } from "../../app/route";
import type { ConnectorView, WiringFinding } from "../../app/types";
import { CommitKey, Key } from "../../app/ui/Key";
import { asItShouldBe, type Found, isComplete, storedFound } from "./state";
import { words } from "./words";

interface KeysProps {
  connector: ConnectorView;
  draft: Draft<Found>;
  finding: WiringFinding | null;
}

export function WiringKeys({ connector, draft, finding }: KeysProps) {
  const found = draft.value.value;
  const stored = JSON.stringify(found) === JSON.stringify(storedFound(connector));
  const named = { connector: connector.id, half: connector.half };
  const keep = async () => {
    const body = { ...named, found, loose: loose(connector, found) };
    if (!(await record([{ kind: "wiring found", body }]))) return;
    if (finding?.same) show("work");
  };
  const correct = async () => {
    const body = { ...named, now: finding?.corrected ?? {} };
    if (!(await record([{ kind: "wiring corrected", body }]))) return;
    draft.clear();
    show("work");
  };
  return (
    <div class="key-row">
      <Key look="small" onPress={back}>
        {words.back}
      </Key>
      {stored && finding && !finding.same ? (
        <CommitKey key="moved" look="main" off={working.value !== ""} onPress={correct}>
          {words.moved}
        </CommitKey>
      ) : (
        <CommitKey
          key="keep"
          look="main"
          off={!isComplete(connector, found) || stored}
          onPress={keep}
        >
          {isComplete(connector, found) ? words.store : words.start}
        </CommitKey>
      )}
    </div>
  );
}

/** Wires of the half that were found in no way at all. */
function loose(connector: ConnectorView, found: Found): string[] {
  const placed = new Set(Object.values(found));
  return connector.wires.map(({ id }) => id).filter((id) => !placed.has(id));
}

export function AllAsTheyShould({
  draft,
  connector,
}: {
  draft: Draft<Found>;
  connector: ConnectorView;
}) {
  const missing = { ...asItShouldBe(connector), ...draft.value.value };
  return <Key onPress={() => draft.set(missing)}>{words.all}</Key>;
}
