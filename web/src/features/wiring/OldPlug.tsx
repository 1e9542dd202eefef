/** As it should be, read off the old plug: the colour in each way, then what that changes. */

import { useState } from "preact/hooks";
import { type Draft, useDraft } from "../../app/draft";
import { practising } from "../../app/facts";
import { jobId, record } from "../../app/job";
import { backTo, show } from "../../app/route";
import type { ConnectorView, OldPlugRead, WayView } from "../../app/types";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { Photos } from "../photos/Photos";
import { PictureKey } from "../photos/PictureKey";
import { photosAt } from "../photos/state";
import { type Taking, useTaking } from "../photos/useTaking";
import { ColourPicker } from "./ColourPicker";
import type { Held } from "./Face";
import { Sided } from "./Sided";
import { codeOf, colourOf, connectorName, keyOf, nextOpen, wireInWords } from "./state";
import { useNotices } from "./useNotices";
import { words } from "./words";

/** Follows a half's name in the name of this screen. */
export const OLD_PLUG = " old";

export type Colours = OldPlugRead["colours"];

interface Kept {
  off: NonNullable<OldPlugRead["read_off"]>;
  colours: Colours;
}

/** Says where the wiring as it should be is known from, and offers the old plug instead. */
export function ShouldFrom({ connector }: { connector: ConnectorView }) {
  if (practising.value) return null;
  const { should_from } = connector;
  return (
    <section class="block">
      <p class="soft">{words.shouldFrom[should_from]}</p>
      <Key onPress={() => show("wiring", `${keyOf(connector)}${OLD_PLUG}`)}>
        {should_from === "sheet" ? words.readOld : words.readAgain}
      </Key>
    </section>
  );
}

export function OldPlugScreen({ connector }: { connector: ConnectorView }) {
  const draft = useDraft<Kept>(`old.${jobId.value}.${keyOf(connector)}`, {
    off: "old plug",
    colours: {},
  });
  const { off, colours } = draft.value.value;
  const [way, setWay] = useState<string | null>(null);
  const set = (next: Colours) => draft.set({ off, colours: next });
  const notices = useNotices(connector, colours);
  const { id, half } = connector;
  const taking = useTaking({ connector: id, half, shows: "old plug" });
  const photos = photosAt(id, half).filter(({ shows }) => shows === "old plug");
  return (
    <Screen
      name={words.oldName(connectorName(connector))}
      above={<JobHead />}
      keys={
        <Keys
          connector={connector}
          draft={draft}
          can={notices !== null && way === null}
          taking={taking}
        />
      }
    >
      <Trouble />
      <Sided
        connector={connector}
        held={(each) => asRead(connector, colours, each)}
        lines={[words.bySheet, words.read]}
        way={way}
        onWay={setWay}
      />
      <Photos photos={photos} taking={taking} />
      {way === null ? (
        <>
          <p class="do">{words.oldStart}</p>
          <Toggles
            question={words.oldWhere}
            options={words.oldPlaces}
            chosen={off}
            onChoose={(next) => draft.set({ off: next, colours })}
          />
          {notices && <Notices notices={notices} />}
          <PictureKey taking={taking} />
        </>
      ) : (
        <ColourPicker
          key={way}
          connector={connector}
          way={way}
          held={colours[way]}
          next={nextOpen(connector.ways, colours, way)}
          onHeld={(held) => set({ ...colours, [way]: held })}
          onNext={setWay}
          onRestEmpty={() => {
            set({
              ...Object.fromEntries(connector.ways.map((each) => [each.way, null])),
              ...colours,
            });
            setWay(null);
          }}
        />
      )}
    </Screen>
  );
}

function asRead({ wires }: ConnectorView, colours: Colours, way: WayView): Held {
  const held = colours[way.way];
  const known = codeOf(wires.find(({ id }) => id === way.should)?.colour);
  const read = held === undefined ? words.notRead : held === null ? "empty" : colourNames(held);
  return {
    above: colourOf(wires, way.should),
    below: held === undefined ? "?" : held === null ? "–" : read.replaceAll("/", "/\u200b"),
    differs:
      held !== undefined &&
      ((held === null) !== (way.should === null) || Boolean(known && held && held !== known)),
    spoken: `Way ${way.number}: by the sheet ${wireInWords(wires, way.should)}, read ${read}`,
  };
}

/** Colours of a way to be read by a person. */
const colourNames = (held: string) =>
  held
    .split("+")
    .map((code) => code || "?")
    .join(" + ");

function Notices({ notices }: { notices: string[] }) {
  if (notices.length === 0) return <p class="do">{words.oldSame}</p>;
  return (
    <section class="block">
      <h2>{words.oldChanges}</h2>
      <ul class="plain">
        {notices.map((notice) => (
          <li key={notice}>{notice}</li>
        ))}
      </ul>
    </section>
  );
}

interface KeysProps {
  connector: ConnectorView;
  draft: Draft<Kept>;
  can: boolean;
  taking: Taking;
}

function Keys({ connector, draft, can, taking }: KeysProps) {
  const leave = () => backTo("wiring", keyOf(connector));
  const take = async () => {
    const { off, colours } = draft.value.value;
    const body = { connector: connector.id, half: connector.half, read_off: off, colours };
    if (!(await record([{ kind: "old plug read", body }]))) return;
    draft.clear();
    leave();
  };
  return (
    <div class="key-row">
      <Key look="small" onPress={leave}>
        {words.back}
      </Key>
      <PictureKey taking={taking} camera />
      <CommitKey look="main" off={!can} onPress={take}>
        {words.takeOld}
      </CommitKey>
    </div>
  );
}
