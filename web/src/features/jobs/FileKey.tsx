/** Opens an exported file; its events are added, nothing is overwritten. */

import { useRef, useState } from "preact/hooks";
import { attempt } from "../../app/job";
import { ports } from "../../app/ports";
import { chosen } from "../../app/ui/chosen";
import { Key } from "../../app/ui/Key";
import { words } from "./words";

export function FileKey() {
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<readonly string[]>([]);
  const open = async () => {
    const file = chosen(input.current);
    if (!file) return;
    setSaid([words.opening(file.name)]);
    const imported = await attempt(() => ports().store.importFile(file));
    setSaid(
      imported
        ? [words.imported(imported.events.length, imported.photos), ...told(imported.refused)]
        : [],
    );
  };
  return (
    <>
      <Key onPress={() => input.current?.click()}>{words.openFile}</Key>
      <input
        ref={input}
        class="unseen"
        type="file"
        tabIndex={-1}
        aria-label={words.openFile}
        onChange={open}
      />
      <div role="status">
        {said.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
    </>
  );
}

/** A file damaged throughout would fill the screen. */
const MOST_TOLD = 5;

function told(refused: readonly string[]): string[] {
  const more = refused.length - MOST_TOLD;
  return [...refused.slice(0, MOST_TOLD), ...(more > 0 ? [words.refusedMore(more)] : [])];
}
