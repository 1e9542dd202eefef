/** The circuit of the job as files for other programs, and a wiring list to take over. */

import { useState } from "preact/hooks";
import { attempt, events, view } from "../../app/job";
import { ports } from "../../app/ports";
import { back } from "../../app/route";
import type { Controls, FileAsked } from "../../app/types";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { Toggles } from "../../app/ui/Toggles";
import { fileName, saveFile } from "../jobs/files";
import { WiringList } from "./WiringList";
import { words } from "./words";

type Form = FileAsked["form"];

const ENDINGS: Record<Form, string> = {
  "wiring list": "csv",
  sheet: "json",
  netlist: "cir",
};
const TYPES: Record<Form, string> = {
  "wiring list": "text/csv",
  sheet: "application/json",
  netlist: "text/plain",
};

export function FilesScreen() {
  const [controls, setControls] = useState<Controls>({});
  const [said, setSaid] = useState<string[]>([]);
  const save = async (form: Form) => {
    const request = { events: events.value, form, controls };
    const made = await attempt(() => ports().core.call("file_make", request));
    if (!made) return;
    const name = fileName(view.value?.title ?? "circuit", ENDINGS[form]);
    saveFile(name, made.text, TYPES[form]);
    setSaid([words.saved(name), ...made.warnings]);
  };
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      keys={
        <Key look="small" onPress={back}>
          {words.back}
        </Key>
      }
    >
      <Trouble />
      <section>
        <h2>{words.out}</h2>
        <div class="stack">
          <Key onPress={() => save("wiring list")}>{words.wires}</Key>
          <Key onPress={() => save("sheet")}>{words.sheet}</Key>
          <Key onPress={() => save("netlist")}>{words.netlist}</Key>
        </div>
        <div role="status">
          {said.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
        <p class="soft">{words.netlistAt}</p>
        {view.value?.controls.map(({ id, name, positions }) => (
          <Toggles
            key={id}
            question={name}
            options={positions.map((each) => ({ value: each.id, name: each.name }))}
            chosen={controls[id] ?? null}
            onChoose={(position) => setControls({ ...controls, [id]: position })}
          />
        ))}
      </section>
      <WiringList />
    </Screen>
  );
}
