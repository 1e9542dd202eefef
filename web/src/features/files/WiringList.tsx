/** A wiring list: held against the sheet first, then taken over as one entry. */

import { useState } from "preact/hooks";
import { events, record } from "../../app/job";
import { ports } from "../../app/ports";
import type { Entry, ListRead } from "../../app/types";
import { FileKey } from "../../app/ui/FileKey";
import { CommitKey } from "../../app/ui/Key";
import { useInView } from "../../app/ui/useInView";
import { circuitText } from "./wanted";
import { words } from "./words";

export function WiringList() {
  const [read, setRead] = useState<ListRead | null>(null);
  const [said, setSaid] = useState("");
  const told = useInView<HTMLElement>(read);
  const open = async (file: File) => {
    setSaid("");
    setRead(null);
    const text = await circuitText(file, "list");
    setRead(await ports().core.call("list_read", { events: events.value, text }));
  };
  const take = async ({ entry }: ListRead) => {
    if (!(await record([entry as unknown as Entry]))) return;
    setRead(null);
    setSaid(words.taken);
  };
  return (
    <section ref={told} class="stack">
      <h2>{words.into}</h2>
      <p>{words.how}</p>
      <FileKey name={words.open} onFile={open} />
      <div role="status">
        {read && <Told read={read} />}
        {said && <p>{said}</p>}
      </div>
      {read && comesToAnything(read) && (
        <CommitKey look="main" onPress={() => take(read)}>
          {words.take}
        </CommitKey>
      )}
    </section>
  );
}

const comesToAnything = ({ fresh, changed }: ListRead) => fresh.length + changed.length > 0;

function Told({ read }: { read: ListRead }) {
  return (
    <>
      <p>{words.count(read.wires)}</p>
      {!comesToAnything(read) && <p>{words.none}</p>}
      {read.fresh.length > 0 && <p>{words.fresh(read.fresh)}</p>}
      {read.changed.length > 0 && <p>{words.changed(read.changed)}</p>}
      {read.notices.map((notice) => (
        <p key={notice}>{notice}</p>
      ))}
    </>
  );
}
