/** The diagram over the whole screen, with keys for its size. */

import { show } from "../../app/route";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Drawing } from "./Drawing";
import type { Picture } from "./picture";
import { foldAgain, useDiagram } from "./useDiagram";
import { useZoom } from "./useZoom";
import { words } from "./words";

export function PictureScreen({ folded, onList }: { folded: Picture; onList: () => void }) {
  const { picture, isOpened } = useDiagram(folded);
  const { frame, scale, zoom, fit } = useZoom(picture);
  return (
    <Screen
      name={words.name}
      quietName
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
          {isOpened ? (
            <Key onPress={foldAgain}>{words.fold}</Key>
          ) : (
            <Key onPress={onList}>{words.toList}</Key>
          )}
          <Key label={words.toFall} onPress={() => show("fall")}>
            {words.volts}
          </Key>
        </div>
      }
    >
      <Trouble />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must scroll from the keyboard too */}
      <section class="drawing" ref={frame} aria-label={words.picture} tabIndex={0}>
        <Drawing picture={picture} scale={scale} onPlace={(place) => show("place", place)} />
      </section>
    </Screen>
  );
}
