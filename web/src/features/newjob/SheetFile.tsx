/** A circuit from a file: what is odd about it is told before a job begins on it. */

import { useState } from "preact/hooks";
import { attempt } from "../../app/job";
import { ports } from "../../app/ports";
import { go } from "../../app/route";
import type { SheetAnswer } from "../../app/types";
import { FileKey } from "../../app/ui/FileKey";
import { CommitKey } from "../../app/ui/Key";
import { useInView } from "../../app/ui/useInView";
import { circuitText } from "../files/wanted";
import { words as fileWords } from "../files/words";
import { openJobOn } from "./library";
import { words } from "./words";

export function SheetFile() {
  const [read, setRead] = useState<SheetAnswer | null>(null);
  const told = useInView<HTMLElement>(read);
  const use = async ({ title, sheet }: SheetAnswer) => {
    const job = await attempt(() => openJobOn(title, sheet));
    if (job) go({ screen: "job", job, show: "complaint" }, true);
  };
  const open = async (file: File) => {
    setRead(null);
    const text = await circuitText(file, "sheet");
    const answer = await ports().core.call("read_sheet", { text });
    if (answer.notices.length === 0) await use(answer);
    else setRead(answer);
  };
  return (
    <section ref={told} class="stack">
      <FileKey name={fileWords.openSheet} onFile={open} />
      {read && (
        <>
          <div role="status">
            <p>{words.odd(read.title)}</p>
            <ul class="plain">
              {read.notices.map((notice) => (
                <li key={notice}>{notice}</li>
              ))}
            </ul>
          </div>
          <CommitKey look="main" onPress={() => use(read)}>
            {words.use}
          </CommitKey>
        </>
      )}
    </section>
  );
}
