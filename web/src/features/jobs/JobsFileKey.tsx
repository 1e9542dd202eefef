/** Opens an exported file; its events are added, nothing is overwritten. */

import { useState } from "preact/hooks";
import { ports } from "../../app/ports";
import { FileKey } from "../../app/ui/FileKey";
import { words } from "./words";

export function JobsFileKey() {
  const [said, setSaid] = useState<readonly string[]>([]);
  const open = async (file: File) => {
    setSaid([]);
    const { events, photos, refused } = await ports().store.importFile(file);
    setSaid([words.imported(events.length, photos), ...told(refused)]);
  };
  return (
    <>
      <FileKey name={words.openFile} onFile={open} />
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

export function told(refused: readonly string[]): string[] {
  const more = refused.length - MOST_TOLD;
  return [...refused.slice(0, MOST_TOLD), ...(more > 0 ? [words.refusedMore(more)] : [])];
}
