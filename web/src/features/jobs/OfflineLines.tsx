/** What the phone can do without a network, and whether a newer version waits. */

import { ports } from "../../app/ports";
import { Key } from "../../app/ui/Key";
import { words } from "./words";

/** Safari in a tab forgets; an installed page and other browsers do not in the same way. */
const forgets = () =>
  "standalone" in navigator &&
  !(navigator as { standalone?: boolean }).standalone &&
  navigator.maxTouchPoints > 0;

export function OfflineLines() {
  const { ready, updateWaiting, update } = ports().offline;
  return (
    <section class="block">
      {ready.value !== undefined && <p>{ready.value ? words.offline : words.notOffline}</p>}
      {forgets() && <p>{words.safari}</p>}
      {updateWaiting.value && (
        <>
          <p>{words.update}</p>
          <Key onPress={update}>{words.take}</Key>
        </>
      )}
    </section>
  );
}
