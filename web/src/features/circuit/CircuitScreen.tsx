/** The current's path as a picture and as a list with the same content. */

import { view } from "../../app/job";
import { show } from "../../app/route";
import type { Diagram, PlaceView } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Drawing } from "./Drawing";
import { useZoom } from "./useZoom";
import { words } from "./words";

export function CircuitScreen() {
  const diagram = view.value?.diagram;
  if (!diagram)
    return (
      <Screen name={words.name} above={<JobHead />} bar={<Bar />}>
        <Trouble />
        <p>{words.later}</p>
      </Screen>
    );
  return <Circuit diagram={diagram} assumed={view.value?.assumed ?? []} />;
}

function Circuit({ diagram, assumed }: { diagram: Diagram; assumed: string[] }) {
  const { frame, scale, zoom, fit } = useZoom(diagram);
  const open = (place: string) => show("place", place);
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      bar={<Bar />}
      keys={
        <div class="key-row">
          <Key label="Smaller" onPress={() => zoom(1 / 1.4)}>
            {words.smaller}
          </Key>
          <Key onPress={fit}>{words.fit}</Key>
          <Key label="Larger" onPress={() => zoom(1.4)}>
            {words.larger}
          </Key>
        </div>
      }
    >
      <Trouble />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must scroll from the keyboard too */}
      <section class="drawing" ref={frame} aria-label={words.picture} tabIndex={0}>
        <Drawing diagram={diagram} scale={scale} onPlace={open} />
      </section>
      <Places places={diagram.places} onPlace={open} />
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
    </Screen>
  );
}

function Places({ places, onPlace }: { places: PlaceView[]; onPlace: (id: string) => void }) {
  return (
    <>
      <h2>{words.list}</h2>
      <ol class="stack places">
        {places.map((place, index) => (
          <li key={place.id}>
            <Key look="answer" onPress={() => onPlace(place.id)}>
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
    </>
  );
}
