/** The whole path of a job: done with its value, skipped with the reason, withdrawn. */

import { useState } from "preact/hooks";
import { view } from "../../app/job";
import { timeOf } from "../../app/time";
import type { ReadingView } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { after, withdraw } from "./state";
import { Undo } from "./Undo";
import { words } from "./words";

export function HistoryScreen() {
  const [asked, setAsked] = useState<ReadingView | null>(null);
  if (asked) return <Falls line={asked} onDone={() => setAsked(null)} />;
  const history = view.value?.history ?? [];
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      bar={<Bar />}
      keys={
        <div class="key-row">
          <Undo />
        </div>
      }
    >
      <Trouble />
      {view.value?.problems.map((problem) => (
        <p key={problem} class="trouble">
          {problem}
        </p>
      ))}
      {history.length === 0 && <p>{words.nothing}</p>}
      <ol class="lines">
        {history.map((line) => (
          <Line key={`${line.device}:${line.n}`} line={line} onUndo={() => setAsked(line)} />
        ))}
      </ol>
    </Screen>
  );
}

function Line({ line, onUndo }: { line: ReadingView; onUndo: () => void }) {
  return (
    <li class={line.withdrawn ? "line line-gone" : "line"}>
      <div class="line-words">
        <p class="line-title">{line.title}</p>
        {line.value && (
          <p class={line.kind === "reading taken" ? "line-value line-reading" : "line-value"}>
            {line.value}
          </p>
        )}
        <p class="soft">
          {[line.withdrawn ? words.withdrawn : line.verdict, line.expected, timeOf(line.at)]
            .filter(Boolean)
            .join(" · ")}
        </p>
      </div>
      {line.can_withdraw && !line.withdrawn && (
        <Key look="small" label={words.withdraw(line.title)} onPress={onUndo}>
          {words.undo}
        </Key>
      )}
    </li>
  );
}

/** Shows first what falls with it. */
function Falls({ line, onDone }: { line: ReadingView; onDone: () => void }) {
  const rest = after(line);
  return (
    <Screen
      name={words.what}
      above={<JobHead />}
      keys={
        <>
          <Key onPress={onDone}>{words.keep}</Key>
          <CommitKey look="main" onPress={async () => (await withdraw(line)) && onDone()}>
            {words.undo}
          </CommitKey>
        </>
      }
    >
      <p class="do">{line.title}</p>
      {line.value && <p class="digits">{line.value}</p>}
      <p>{rest.length === 0 ? words.only : words.rest}</p>
      <ul class="plain">
        {rest.map((other) => (
          <li key={`${other.device}:${other.n}`}>
            {other.title} {other.value && <b>{other.value}</b>}
          </li>
        ))}
      </ul>
    </Screen>
  );
}
