/** The voltage as it falls from the supply to earth: one line a drop, each beginning where the last ended. */

import type { ExplainRun, ExplainStep, Explanation } from "../../app/types";
import { words } from "./words";

export function Fall({ told }: { told: Explanation }) {
  let left = 1;
  return (
    <ol class="fall">
      {told.runs.map((run) => {
        const from = left;
        left -= run.share;
        const steps = told.steps.slice(run.first, run.first + run.count);
        return <Drop key={run.first} run={run} steps={steps} from={from} to={left} />;
      })}
    </ol>
  );
}

interface DropProps {
  run: ExplainRun;
  steps: ExplainStep[];
  from: number;
  to: number;
}

function Drop({ run, steps, from, to }: DropProps) {
  return (
    <li>
      {run.count === 1 ? (
        <Line name={run.name} text={run.text} />
      ) : (
        <details class="fall-more">
          <summary>
            <Line name={run.name} text={run.text} />
          </summary>
          {steps.map(({ element, name, text }) => (
            <Line key={element + name} name={name} text={text} />
          ))}
        </details>
      )}
      <Bar from={from} to={to} />
      {steps.at(-1)?.marks.map((mark) => (
        <p key={mark} class="fall-mark">
          {words[mark]}
        </p>
      ))}
    </li>
  );
}

function Line({ name, text }: { name: string; text: string }) {
  return (
    <span class="fall-line">
      <span>{name}</span>
      <b>{text}</b>
    </span>
  );
}

const inside = (share: number) => Math.min(1, Math.max(0, share)) * 100;

/** What is left of the supply as a thin line, what falls here as its thick end. */
function Bar({ from, to }: { from: number; to: number }) {
  const low = inside(to);
  return (
    <svg class="fall-bar" width="100%" height="10" aria-hidden="true">
      <line class="fall-left" x1="0" x2={`${low}%`} y1="5" y2="5" />
      <rect
        class="fall-drop"
        x={`${Math.min(low, 99.2)}%`}
        width={`${Math.max(inside(from) - low, 0.8)}%`}
        height="10"
      />
    </svg>
  );
}
