/** The current's path, as a picture or as a list with the same content. */

import { signal } from "@preact/signals";
import { view } from "../../app/job";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { PictureScreen } from "./PictureScreen";
import { Places } from "./Places";
import { words } from "./words";

/** Picture or list: stays as it was chosen last. */
const listed = signal(false);

const setListed = (on: boolean) => {
  listed.value = on;
};

export function CircuitScreen() {
  const picture = view.value?.diagram;
  if (!picture || picture.width === 0)
    return (
      <Screen name={words.name} above={<JobHead />} bar={<Bar />}>
        <Trouble />
        <p>{words.later}</p>
      </Screen>
    );
  if (!listed.value) return <PictureScreen folded={picture} onList={() => setListed(true)} />;
  return (
    <Screen
      key="list"
      name={words.list}
      above={<JobHead />}
      bar={<Bar />}
      keys={<Key onPress={() => setListed(false)}>{words.toPicture}</Key>}
    >
      <Places
        places={picture.places}
        odd={view.value?.odd ?? []}
        assumed={view.value?.assumed ?? []}
      />
    </Screen>
  );
}
