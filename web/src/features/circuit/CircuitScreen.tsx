/** The current's path, as a picture or as a list with the same content. */

import { useState } from "preact/hooks";
import { view } from "../../app/job";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { PictureScreen } from "./PictureScreen";
import { Places } from "./Places";
import type { Picture } from "./picture";
import { words } from "./words";

export function CircuitScreen() {
  const [listed, setListed] = useState(false);
  const picture = view.value?.diagram as Picture | undefined;
  if (!picture || picture.width === 0)
    return (
      <Screen name={words.name} above={<JobHead />} bar={<Bar />}>
        <Trouble />
        <p>{words.later}</p>
      </Screen>
    );
  if (!listed) return <PictureScreen picture={picture} onList={() => setListed(true)} />;
  return (
    <Screen
      key="list"
      name={words.list}
      above={<JobHead />}
      bar={<Bar />}
      keys={<Key onPress={() => setListed(false)}>{words.toPicture}</Key>}
    >
      <Places places={picture.places} assumed={view.value?.assumed ?? []} />
    </Screen>
  );
}
