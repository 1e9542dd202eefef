/** Undo of the last action, one tap away; the same key brings it back. */

import { lastWithdrawal } from "../../app/facts";
import { CommitKey } from "../../app/ui/Key";
import { bringBack, lastDone, withdraw } from "./state";
import { words } from "./words";

export function Undo({ onUndone }: { onUndone?: () => void }) {
  const last = lastDone.value;
  if (lastWithdrawal.value)
    return (
      <CommitKey key="redo" look="small" onPress={bringBack}>
        {words.redo}
      </CommitKey>
    );
  const undo = async () => {
    if (last && (await withdraw(last))) onUndone?.();
  };
  return (
    <CommitKey
      key="undo"
      look="small"
      off={!last}
      label={last ? words.withdraw(last.title) : words.undo}
      onPress={undo}
    >
      {words.undo}
    </CommitKey>
  );
}
