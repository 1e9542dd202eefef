/** Where the voltage goes: it falls along the path, and leaves its band where too much falls. */

import { useState } from "preact/hooks";
import { view } from "../../app/job";
import type { Controls, FallView } from "../../app/types";
import { Aside } from "../../app/ui/Aside";
import { Toggles } from "../../app/ui/Toggles";
import { Chart } from "./Chart";
import { useFall } from "./useFall";
import { words } from "./words";

export function FallScreen() {
  const [asked, setAsked] = useState<Controls | null>(null);
  const told = useFall(asked);
  return (
    <Aside name={words.name}>
      {told ? <Told told={told} onAsk={setAsked} /> : <p class="soft">{words.reading}</p>}
    </Aside>
  );
}

function Told({ told, onAsk }: { told: FallView; onAsk: (controls: Controls) => void }) {
  return (
    <>
      <p class="fall-verdict">{told.verdict}</p>
      <p class="condition">{told.condition}</p>
      <Chart told={told} />
      <Legend suspect={told.suspect} />
      {view.value?.controls.map((control) => (
        <Toggles
          key={control.id}
          question={control.name}
          options={control.positions.map(({ id, name }) => ({ value: id, name }))}
          chosen={told.controls[control.id] ?? null}
          onChoose={(position) => onAsk({ ...told.controls, [control.id]: position })}
        />
      ))}
    </>
  );
}

function Legend({ suspect }: { suspect: string }) {
  return (
    <ul class="chart-legend">
      <li>
        <svg width="36" height="18" aria-hidden="true">
          <rect class="chart-band" width="36" height="18" />
        </svg>
        {words.band}
      </li>
      <li>
        <svg width="36" height="18" aria-hidden="true">
          <path class="chart-read" d="M0 9 H36" />
          <circle class="chart-mark" cx="18" cy="9" r="7" />
        </svg>
        {words.measured}
      </li>
      {suspect && (
        <li>
          <svg width="36" height="18" aria-hidden="true">
            <path class="chart-suspect" d="M0 9 H36" />
          </svg>
          {words.suspect(suspect)}
        </li>
      )}
    </ul>
  );
}
