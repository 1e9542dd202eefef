/** A sheet from a wiring diagram: one part after another along the current, the drawing beside it. */

import { useEffect, useRef, useState } from "preact/hooks";
import { attempt } from "../../app/job";
import { back, go } from "../../app/route";
import type { BuildView } from "../../app/types";
import { Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { Told } from "../../app/ui/Told";
import { Drawing } from "../circuit/Drawing";
import { words as starterWords } from "../starter/words";
import { Board, Seldom } from "./Board";
import { isPlain, Question } from "./Question";
import { isBegun, kept, openBuilt, type Step, useBuilding } from "./state";
import { words } from "./words";

const SCALE = 40;

export function BuilderScreen() {
  const { view, refused, forgetRefused, step, undo, setVolts } = useBuilding();
  const [about, setAbout] = useState("");
  const ask = (next: string) => {
    forgetRefused();
    setAbout(next);
  };
  // What was typed stands until it has been taken.
  const take = async (next: Step) => {
    if (await step(next)) setAbout((now) => (now === about ? "" : now));
  };
  const choose = (next: string) => {
    if (next === "earth") return take({ do: "earth" });
    return isPlain(next) ? take({ do: "put", what: next }) : ask(next);
  };
  const use = async () => {
    const sheet = view?.sheet;
    const job = sheet && (await attempt(() => openBuilt(view.title, sheet)));
    if (job) go({ screen: "job", job, show: "complaint" }, true);
  };
  return (
    <Screen
      name={words.name}
      keys={
        <div class="key-row">
          <Key look="small" onPress={() => (about ? ask("") : back())}>
            {words.back}
          </Key>
          <Key look="small" off={!isBegun()} onPress={undo}>
            {words.undo}
          </Key>
          <CommitKey look="main" off={!view?.sheet} onPress={use}>
            {words.use}
          </CommitKey>
        </div>
      }
    >
      <Trouble />
      <div class="growing-box">
        {refused && <Told refused={refused} />}
        {view && isBegun() && <Growing view={view} />}
      </div>
      {view && !isBegun() && about === "" && (
        <Toggles
          question={words.volts}
          options={starterWords.voltages}
          chosen={kept.value.value.volts}
          onChoose={setVolts}
        />
      )}
      {view && (
        <p>
          {words.from} <b>{view.at.name}</b>
          {isBegun() && ` · ${openWords(view)}`}
        </p>
      )}
      {view && about === "more" && <Seldom onChoose={choose} />}
      {view && about !== "" && about !== "more" && (
        <Question about={about} view={view} onStep={take} />
      )}
      {view && about === "" && (
        <>
          <Board onChoose={choose} />
          {isBegun() && <Problems view={view} />}
          {isBegun() && (
            <Key look="small" onPress={() => take({ do: "clear" })}>
              {words.clear}
            </Key>
          )}
        </>
      )}
    </Screen>
  );
}

/** How many ends lead nowhere yet; that none does is told too, or the question for more reads as a demand. */
const openWords = ({ problems }: BuildView) =>
  problems.length > 0 ? words.open(problems.length) : words.complete;

/** The drawing, with the end in hand in sight. */
function Growing({ view }: { view: BuildView }) {
  const frame = useRef<HTMLElement>(null);
  useEffect(() => {
    const at = view.ends.find(({ now }) => now);
    const { clientWidth = 0, clientHeight = 0, scrollHeight = 0 } = frame.current ?? {};
    if (at)
      frame.current?.scrollTo(at.x * SCALE - clientWidth / 2, at.y * SCALE - clientHeight / 2);
    else frame.current?.scrollTo(0, scrollHeight);
  }, [view]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must scroll from the keyboard too
    <section class="drawing growing" ref={frame} aria-label={words.drawing} tabIndex={0}>
      <Drawing picture={view.diagram} scale={SCALE} onPlace={() => {}} ends={view.ends} />
    </section>
  );
}

function Problems({ view }: { view: BuildView }) {
  if (view.problems.length === 0) return null;
  return (
    <details open={view.problems.some(({ stops }) => stops)}>
      <summary>{words.open(view.problems.length)}</summary>
      <ul class="plain">
        {view.problems.map(({ element, sentence, stops }) => (
          <li key={`${element} ${sentence}`}>{stops ? <b>{sentence}</b> : sentence}</li>
        ))}
      </ul>
    </details>
  );
}
