/** One connector half: ways as they should be and as found, then what that amounts to. */

import { useState } from "preact/hooks";
import { type Draft, useDraft } from "../../app/draft";
import { practising } from "../../app/facts";
import { jobId } from "../../app/job";
import type { ConnectorView } from "../../app/types";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Screen } from "../../app/ui/Screen";
import { Photos } from "../photos/Photos";
import { PictureKey } from "../photos/PictureKey";
import { photosAt } from "../photos/state";
import { useTaking } from "../photos/useTaking";
import { compared } from "./Face";
import { FindingView } from "./FindingView";
import { ShouldFrom } from "./OldPlug";
import { Orders } from "./Orders";
import { Otherwise } from "./Otherwise";
import { Sided } from "./Sided";
import { Strange } from "./Strange";
import {
  bridges,
  connectorName,
  type Found,
  isComplete,
  keyOf,
  nextOpen,
  sameFound,
  storedFound,
  withWire,
} from "./state";
import { useFinding } from "./useFinding";
import { WirePicker } from "./WirePicker";
import { AllAsTheyShould, WiringKeys } from "./WiringKeys";
import { words } from "./words";

export function ConnectorScreen({ connector }: { connector: ConnectorView }) {
  const draft = useDraft<Found>(
    `wiring.${jobId.value}.${keyOf(connector)}`,
    storedFound(connector),
  );
  const found = draft.value.value;
  const [way, setWay] = useState<string | null>(null);
  const finding = useFinding(connector, found);
  const { id, half } = connector;
  const taking = useTaking({ connector: id, half, shows: "half" });
  const camera = practising.value ? null : <PictureKey taking={taking} camera />;
  const pick = (wire: string | null, beside: boolean) =>
    way !== null && setWay(laid(draft, connector, way, wire, beside));
  return (
    <Screen
      name={connectorName(connector)}
      above={<JobHead />}
      keys={<WiringKeys connector={connector} draft={draft} finding={finding} camera={camera} />}
    >
      <Trouble />
      <Sided
        connector={connector}
        held={(each) => compared(connector, found, each)}
        lines={[words.should, words.found]}
        way={way}
        onWay={setWay}
      />
      {camera && <Photos photos={photosAt(id, half)} taking={taking} />}
      {way !== null && (
        <WirePicker
          key={way}
          connector={connector}
          way={way}
          holds={Boolean(found[way])}
          onPick={pick}
        />
      )}
      {way === null && !isComplete(connector, found) && (
        <>
          <p class="do">{words.start}</p>
          <AllAsTheyShould draft={draft} connector={connector} />
          {!connector.inspected && <Orders connector={connector} found={found} />}
        </>
      )}
      {way === null &&
        sameFound(connector, found) &&
        finding?.strange.map((wire) => <Strange key={wire.name} wire={wire} />)}
      {way === null && finding && <FindingView finding={finding} />}
      {way === null && <ShouldFrom connector={connector} />}
      {way === null && <Otherwise connector={connector} />}
      {way === null && camera && <PictureKey taking={taking} />}
    </Screen>
  );
}

/** Lays a wire into a way and answers which way to look at next. */
function laid(
  draft: Draft<Found>,
  connector: ConnectorView,
  way: string,
  wire: string | null,
  beside: boolean,
) {
  const next = withWire(draft.value.value, way, wire, beside, bridges(connector));
  draft.set(next);
  return nextOpen(connector.ways, next, way);
}
