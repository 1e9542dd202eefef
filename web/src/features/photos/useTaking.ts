/** Taking photos of one thing, and what came of the last one. */

import { useState } from "preact/hooks";
import { type Subject, takeOver } from "./state";
import { words } from "./words";

export interface Taking {
  readonly said: string;
  readonly busy: boolean;
  readonly take: (picture: File | undefined) => void;
  readonly noneCame: () => void;
}

export function useTaking(subject: Subject): Taking {
  const [said, setSaid] = useState("");
  const [busy, setBusy] = useState(false);
  const take = async (picture: File | undefined) => {
    if (!picture) return;
    setBusy(true);
    setSaid(words.shrinking);
    setSaid(await takeOver(picture, subject));
    setBusy(false);
  };
  return { said, busy, take, noneCame: () => setSaid(words.none) };
}
