/** The places for a probe in order from supply to earth, and what is only assumed of the circuit. */

import { show } from "../../app/route";
import { Key } from "../../app/ui/Key";
import type { Spot } from "./picture";
import { words } from "./words";

export function Places({ places, assumed }: { places: Spot[]; assumed: string[] }) {
  return (
    <>
      <ol class="stack">
        {places.map((place, index) => (
          <li key={place.id}>
            <Key look="answer" onPress={() => show("place", place.id)}>
              <span class="answer-lines">
                <span>
                  <b>{index + 1}</b> {place.name}
                </span>
                <span class="soft">{place.measured || words.notMeasured}</span>
              </span>
            </Key>
          </li>
        ))}
      </ol>
      {assumed.length > 0 && (
        <details>
          <summary>{words.assumed}</summary>
          <ul class="plain">
            {assumed.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
