/** The places for a probe in order from supply to earth, and what is odd or only assumed of the circuit. */

import { show } from "../../app/route";
import { Key } from "../../app/ui/Key";
import type { Spot } from "./picture";
import { words } from "./words";

interface PlacesProps {
  places: Spot[];
  odd: string[];
  assumed: string[];
}

export function Places({ places, odd, assumed }: PlacesProps) {
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
      <Listed title={words.odd} lines={odd} />
      <Listed title={words.assumed} lines={assumed} />
    </>
  );
}

function Listed({ title, lines }: { title: string; lines: string[] }) {
  if (lines.length === 0) return null;
  return (
    <details>
      <summary>{title}</summary>
      <ul class="plain">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}
