/** Connectors: which one, then its face. */

import { view } from "../../app/job";
import { back, show } from "../../app/route";
import type { ConnectorView } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { photosAt } from "../photos/state";
import { words as photoWords } from "../photos/words";
import { ConnectorScreen } from "./ConnectorScreen";
import { OLD_PLUG, OldPlugScreen } from "./OldPlug";
import { connectorName, keyOf } from "./state";
import { words } from "./words";

export function WiringScreen({ about }: { about?: string | undefined }) {
  const connectors = view.value?.connectors ?? [];
  const one = connectors.find((connector) => keyOf(connector) === about);
  if (one) return <ConnectorScreen key={about} connector={one} />;
  const read = connectors.find((connector) => `${keyOf(connector)}${OLD_PLUG}` === about);
  if (read) return <OldPlugScreen key={about} connector={read} />;
  const doubtfulFirst = [...connectors].sort((a, b) => Number(b.doubtful) - Number(a.doubtful));
  return (
    <Screen
      name={words.pick}
      above={<JobHead />}
      bar={<Bar />}
      keys={<Key onPress={back}>{words.back}</Key>}
    >
      {connectors.length === 0 && <p>{words.none}</p>}
      <div class="stack">
        {doubtfulFirst.map((connector) => (
          <Key
            key={keyOf(connector)}
            look="answer"
            onPress={() => show("wiring", keyOf(connector))}
          >
            <span class="answer-lines">
              <span>{connectorName(connector)}</span>
              <span class="soft">{notesOn(connector)}</span>
            </span>
          </Key>
        ))}
      </div>
    </Screen>
  );
}

function notesOn({ id, half, doubtful, inspected }: ConnectorView): string {
  const { length } = photosAt(id, half);
  const notes = [doubtful && words.doubtful, inspected && words.inspected];
  return [...notes, length > 0 && photoWords.count(length)].filter(Boolean).join(" · ");
}
