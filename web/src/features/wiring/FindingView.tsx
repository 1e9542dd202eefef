/** What the wiring as found amounts to, and the moves that put it right. */

import type { WiringFinding } from "../../app/types";
import { words } from "./words";

export function FindingView({ finding }: { finding: WiringFinding }) {
  const explains = finding.explains_complaint;
  return (
    <section class="block">
      <h2 class="said">{finding.same ? words.asDrawn : finding.slip}</h2>
      {explains !== null && <p class="left">{explains ? words.explains : words.explainsNot}</p>}
      <Lines title={words.moves} lines={finding.moves} ordered />
      <Lines title={words.notes} lines={finding.notes} />
      <Lines title={words.differences} lines={finding.differences} />
      <Lines title={words.effects} lines={finding.effects} />
      <Lines title={words.damage} lines={finding.damage} />
      <Lines title={words.renewing} lines={finding.renewing} />
    </section>
  );
}

function Lines({ title, lines, ordered }: { title: string; lines: string[]; ordered?: boolean }) {
  if (lines.length === 0) return null;
  const items = lines.map((line) => <li key={line}>{line}</li>);
  return (
    <>
      <h3>{title}</h3>
      {ordered ? <ol class="steps">{items}</ol> : <ul class="plain">{items}</ul>}
    </>
  );
}
