/** A surprising reading is asked back once, with the likely value on a key. */

import { shown } from "../../app/number";
import type { Weighed } from "../../app/types";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { type Typing, typing } from "./state";
import { words } from "./words";

interface DoubtProps {
  now: Typing;
  weighed: Weighed;
  onKeep: (typed: Typing, sure: boolean) => unknown;
  onBack: () => void;
}

export function DoubtAsked({ now, weighed, onKeep, onBack }: DoubtProps) {
  const offered = { ...now, typed: weighed.offer_typed, unit: weighed.offer_unit };
  const takeOffer = () => {
    typing.set(offered);
    return onKeep(offered, true);
  };
  return (
    <Screen
      name={weighed.ask}
      keys={
        <>
          <Key onPress={onBack}>Back to the pad</Key>
          <CommitKey look="answer" onPress={() => onKeep(now, true)}>
            {words.asTyped(`${shown(now.typed)} ${now.unit}`)}
          </CommitKey>
          {weighed.offer && (
            <CommitKey look="main" onPress={takeOffer}>
              {words.offer(weighed.offer)}
            </CommitKey>
          )}
        </>
      }
    >
      <p class="digits">{`${shown(now.typed)} ${now.unit}`}</p>
    </Screen>
  );
}
