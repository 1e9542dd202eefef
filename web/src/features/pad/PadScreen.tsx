/** The number pad: band and mark above, digits, big keys, and a key that repeats what it will keep. */

import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { attempt, jobId, view } from "../../app/job";
import { shown } from "../../app/number";
import { back, show } from "../../app/route";
import { Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Scale } from "../../app/ui/Scale";
import { Screen } from "../../app/ui/Screen";
import { PresenceAsked } from "../check/PresenceAsked";
import { DoubtAsked } from "./DoubtAsked";
import { Keypad } from "./Keypad";
import { type Doubt, inBand, keepTyped } from "./keep";
import { press, type Typing, typing } from "./state";
import { UnitRow } from "./UnitRow";
import { words } from "./words";

export function PadScreen() {
  const now = typing.value.value;
  const mine = now?.job === jobId.value;
  useEffect(() => {
    if (!mine) show("work");
  }, [mine]);
  return now && mine ? <Pad now={now} /> : null;
}

function Pad({ now }: { now: Typing }) {
  const [doubt, setDoubt] = useState<Doubt | null>(null);
  useTyping(() => setDoubt(null));
  const keep = async (typed: Typing, sure: boolean) =>
    setDoubt((await attempt(() => keepTyped(typed, sure))) ?? null);
  const text = `${shown(now.typed)} ${now.unit}`;
  if (doubt && "ask" in doubt)
    return <DoubtAsked now={now} weighed={doubt.ask} onKeep={keep} onBack={() => setDoubt(null)} />;
  return (
    <Screen
      name={`Reading: ${now.check.do}`}
      quietName
      above={<PadHead now={now} />}
      keys={
        <>
          <UnitRow now={now} />
          <Keypad
            onKey={(key) => {
              setDoubt(null);
              press(key);
            }}
          />
          <div class="key-row">
            <Key look="small" onPress={back}>
              Back
            </Key>
            <CommitKey look="main" off={!/\d/.test(now.typed)} onPress={() => keep(now, false)}>
              {now.typed ? words.keep(text) : words.nothing}
            </CommitKey>
          </div>
        </>
      }
    >
      <Trouble />
      <PresenceAsked />
      <Digits now={now} />
      {doubt && "refuse" in doubt && (
        <p class="trouble" role="alert">
          {doubt.refuse}
        </p>
      )}
    </Screen>
  );
}

/** Places and expected value in short: what to do stood on the screen before. */
function PadHead({ now }: { now: Typing }) {
  const { band, record, goal } = now.check;
  const places = together([record.red, record.black].flatMap((id) => placeName(id) ?? []));
  const head = [places || goal, band && words.expected(band.text)].filter(Boolean).join(" · ");
  return <span class="pad-head">{head}</span>;
}

/** Two ways of one half of a connector name it once. */
function together([one = "", other]: string[]): string {
  if (!other) return one;
  const [way = "", ...rest] = one.split(" of ");
  const isAlike = rest.length > 0 && other.endsWith(` of ${rest.join(" of ")}`);
  return `${isAlike ? way : one} to ${other}`;
}

const placeName = (id: string | undefined) =>
  view.value?.diagram.places.find((place) => place.id === id)?.name;

function Digits({ now }: { now: Typing }) {
  const { band } = now.check;
  return (
    <>
      <p class="digits" aria-live="polite">
        {shown(now.typed) || "\u2007"} <span class="digits-unit">{now.unit}</span>
      </p>
      {band && <Scale band={band} mark={inBand(now)} />}
    </>
  );
}

/** A small keyboard types too: digits, either decimal mark, minus, delete. */
function useTyping(onKey: () => void): void {
  // Before the pad is painted: no key is lost that is pressed as soon as it stands.
  useLayoutEffect(() => {
    const type = (event: KeyboardEvent) => {
      const key = KEYS[event.key] ?? (/^\d$/.test(event.key) ? event.key : null);
      if (key === null) return;
      onKey();
      press(key);
    };
    addEventListener("keydown", type);
    return () => removeEventListener("keydown", type);
  }, [onKey]);
}

const KEYS: Record<string, string> = { ".": ".", ",": ".", "-": "sign", Backspace: "delete" };
