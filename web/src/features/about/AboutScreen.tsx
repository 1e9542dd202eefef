/** What this is, which release, and the notices of what it is made of. */

import { view } from "../../app/job";
import { back } from "../../app/route";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { words } from "./words";

export function AboutScreen() {
  return (
    <Screen name={words.name} keys={<Key onPress={back}>{words.back}</Key>}>
      <p>{words.what}</p>
      <p>{words.where}</p>
      {view.value && <p>{words.release(view.value.release)}</p>}
      <p>
        <a class="key key-plain" href="NOTICES.txt">
          {words.notices}
        </a>
      </p>
    </Screen>
  );
}
