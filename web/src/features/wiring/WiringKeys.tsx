/** The keys below a connector: keep what was found, then say that the wires were moved. */

import type { ComponentChildren } from "preact";
import type { Draft } from "../../app/draft";
import { practising } from "../../app/facts";
import { record } from "../../app/job";
import { back, show } from "../../app/route";
import type { ConnectorView, WiringFinding } from "../../app/types";
import { CommitKey, Key } from "../../app/ui/Key";
import { lookInside } from "../practice/answers";
import { words as practiceWords } from "../practice/words";
import { asItShouldBe, type Found, isComplete, loose, sameFound } from "./state";
import { words } from "./words";

interface KeysProps {
  connector: ConnectorView;
  draft: Draft<Found>;
  finding: WiringFinding | null;
}

/** `camera` is the key that takes a photo. */
export function WiringKeys(props: KeysProps & { camera: ComponentChildren }) {
  const { connector, draft, finding, camera } = props;
  const found = draft.value.value;
  const stored = connector.inspected && sameFound(connector, found);
  return (
    <div class="key-row">
      <Key look="small" onPress={back}>
        {words.back}
      </Key>
      {camera}
      {isComplete(connector, found) && !stored && (
        <Keep connector={connector} draft={draft} finding={finding} />
      )}
      {stored && finding && !finding.same && (
        <Moved connector={connector} draft={draft} finding={finding} />
      )}
    </div>
  );
}

function Keep({ connector, draft, finding }: KeysProps) {
  const { id, half } = connector;
  const found = draft.value.value;
  const keep = async () => {
    const body = { connector: id, half, found, loose: loose(connector, found) };
    if ((await record([{ kind: "wiring found", body }])) && finding?.same) show("work");
  };
  return (
    <CommitKey look="main" onPress={keep}>
      {words.store}
    </CommitKey>
  );
}

function Moved({ connector, draft, finding }: KeysProps) {
  const { id, half } = connector;
  const correct = async () => {
    const body = { connector: id, half, now: finding?.corrected ?? {} };
    if (!(await record([{ kind: "wiring corrected", body }]))) return;
    draft.clear();
    show("work");
  };
  return (
    <CommitKey look="main" onPress={correct}>
      {words.moved}
    </CommitKey>
  );
}

function LookInside({ draft, connector }: { draft: Draft<Found>; connector: ConnectorView }) {
  const look = async () => {
    const found = await lookInside(connector.id, connector.half);
    if (found) draft.set(found);
  };
  return <Key onPress={look}>{practiceWords.inside}</Key>;
}

export function AllAsTheyShould({
  draft,
  connector,
}: {
  draft: Draft<Found>;
  connector: ConnectorView;
}) {
  if (practising.value) return <LookInside draft={draft} connector={connector} />;
  const missing = { ...asItShouldBe(connector), ...draft.value.value };
  return <Key onPress={() => draft.set(missing)}>{words.all}</Key>;
}
