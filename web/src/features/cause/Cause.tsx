/** A proven cause: its proof, why it failed, and what is still open about it. */

import type { CauseView } from "../../app/types";
import { words } from "./words";

export function Cause({ cause }: { cause: CauseView }) {
  return (
    <section class="block">
      <h2>{cause.title}</h2>
      <Part title={words.proof} lines={cause.proof} />
      <Part title={words.reasons} lines={cause.reasons} />
      <Part title={words.open} lines={cause.open_questions} />
    </section>
  );
}

function Part({ title, lines }: { title: string; lines: string[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ul class="plain">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
