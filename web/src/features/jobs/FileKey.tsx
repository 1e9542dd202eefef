/** Opens an exported file; its events are added, nothing is overwritten. */

import { useRef, useState } from "preact/hooks";
import { attempt } from "../../app/job";
import { ports } from "../../app/ports";
import { Key } from "../../app/ui/Key";
import { words } from "./words";

export function FileKey() {
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState("");
  const open = async (file: File | undefined) => {
    if (!file) return;
    const text = await file.text();
    const imported = await attempt(() => ports().store.importText(text));
    setSaid(imported ? words.imported(imported.events.length) : "");
    if (input.current) input.current.value = "";
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
        onChange={(event) => open(event.currentTarget.files?.[0])}
      />
      {said && <p role="status">{said}</p>}
    </>
  );
}
