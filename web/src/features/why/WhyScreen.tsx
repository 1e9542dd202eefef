/** Why a value is expected: in words, as the current's way, and by what makes its band wide. */

import { jobId } from "../../app/job";
import type { Explanation } from "../../app/types";
import { Aside } from "../../app/ui/Aside";
import { Fall } from "./Fall";
import { asked } from "./state";
import { useWhy } from "./useWhy";
import { words } from "./words";

export function WhyScreen() {
  const kept = asked.value.value;
  const now = kept?.job === jobId.value ? kept : null;
  const told = useWhy(now?.record ?? null);
  return (
    <Aside name={words.name}>
      {now && <p class="expected-value">{now.expected}</p>}
      {told ? <Told told={told} /> : <p class="soft">{words.reading}</p>}
    </Aside>
  );
}

function Told({ told }: { told: Explanation }) {
  return (
    <>
      <p class="why-place">{told.row.name}</p>
      <p class="condition">{told.condition}</p>
      {told.warnings.map((warning) => (
        <p key={warning} class="trouble">
          {warning}
        </p>
      ))}
      {told.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {told.meter && <p class="soft">{told.meter}</p>}
      {told.steps.length > 0 && <h2>{words.way}</h2>}
      <Fall told={told} />
      <Spread told={told} />
    </>
  );
}

/** Smaller shares of the band's width are not shown. */
const SHOWN = 0.005;

function Spread({ told }: { told: Explanation }) {
  const parts = told.spread.filter(({ share }) => share >= SHOWN);
  if (parts.length === 0) return null;
  return (
    <>
      <h2>{words.band}</h2>
      <ul class="plain">
        {parts.map(({ element, name, share, text }) => (
          <li key={element + name}>
            <span class="fall-line">
              <span>{name}</span>
              <b>{text}</b>
            </span>
            <svg class="share" width="100%" height="8" aria-hidden="true">
              <rect class="share-all" width="100%" height="8" rx="4" />
              <rect class="share-that" width={`${share * 100}%`} height="8" rx="4" />
            </svg>
          </li>
        ))}
      </ul>
    </>
  );
}
