/** What is asked about the part, plug or wire that comes next. Everything but its kind may stay open. */

import { useState } from "preact/hooks";
import type { BuildView, Change, Put } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { Toggles } from "../../app/ui/Toggles";
import type { Step } from "./state";
import { words } from "./words";

const FUSES = [3, 5, 7.5, 10, 15, 20, 25, 30, 40];
const TWINS = ["P21/5W", "H4", "PY21/5W", "P21/4W", "W21/5W"];
const LAMPS = ["H7", "H1", "H3", "P21W", "PY21W", "R5W", "R10W", "W5W", "C5W"];
/** Of amperes, watts and ohms. */
const MOST = 5000;
const COUNTS = [1, 2, 3, 4, 5, 6, 7, 8];
const COLOURS = ["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "TQ"];

interface QuestionProps {
  about: string;
  view: BuildView;
  onStep: (step: Step) => unknown;
}

export function Question({ about, view, onStep }: QuestionProps) {
  switch (about) {
    case "plug":
      return <PlugAsked about={about} view={view} onStep={onStep} />;
    case "split":
      return (
        <Toggles
          question={words.branches}
          options={COUNTS.slice(1).map(asOption)}
          chosen={null}
          onChoose={(branches) => onStep({ do: "split", branches })}
        />
      );
    case "join":
      return (
        <Places
          question={words.join}
          places={view.inlets}
          onPlace={(to) => onStep({ do: "join", to })}
        />
      );
    case "go":
      return (
        <Places
          question={words.go}
          places={view.points}
          onPlace={(to) => onStep({ do: "go", to })}
        />
      );
    case "copy":
      return <CopyAsked about={about} view={view} onStep={onStep} />;
    case "change":
      return <ChangeAsked about={about} view={view} onStep={onStep} />;
    default:
      return <PartAsked what={about as Put["what"]} onStep={onStep} />;
  }
}

const asOption = <T extends string | number>(value: T) => ({ value, name: String(value) });

/** Parts of which there is nothing to ask. */
const PLAIN: Put["what"][] = [
  "relay",
  "relay coil",
  "changeover relay",
  "reversing switch",
  "diode",
  "not on the drawing",
];

export const isPlain = (about: string): about is Put["what"] => (PLAIN as string[]).includes(about);

function PartAsked({ what, onStep }: { what: Put["what"]; onStep: (step: Step) => unknown }) {
  const [typed, setTyped] = useState("");
  const [turned, setTurned] = useState(false);
  const put = (more: Partial<Put>) => onStep({ do: "put", what, turned, ...more });
  const many = what === "switch" || what === "resistor pack" ? what : null;
  const number = Number(typed.trim().replace(",", "."));
  const known = number > 0 && number <= MOST;
  const wrong = typed.trim() !== "" && !known;
  return (
    <>
      {many && (
        <Toggles
          question={words.turned}
          options={words.comesIn[many]}
          chosen={turned}
          onChoose={setTurned}
        />
      )}
      {many && (
        <Toggles
          question={many === "switch" ? words.outlets : words.steps}
          options={COUNTS.map(asOption)}
          chosen={null}
          onChoose={(ways) => put({ ways })}
        />
      )}
      {what === "fuse" && (
        <Toggles
          question={words.fuse}
          options={FUSES.map(asOption)}
          chosen={null}
          onChoose={(amount) => put({ amount })}
        />
      )}
      {what === "lamp" && (
        <Toggles
          question={words.lamp}
          options={LAMPS.map(asOption)}
          chosen={null}
          onChoose={(code) => put({ code })}
        />
      )}
      {what === "twin-filament lamp" && (
        <Toggles
          question={words.twin}
          options={TWINS.map(asOption)}
          chosen={null}
          onChoose={(code) => put({ code })}
        />
      )}
      {UNITS[what] && (
        <Field
          name={words.amount[UNITS[what]]}
          value={typed}
          onValue={setTyped}
          inputMode="decimal"
        />
      )}
      {wrong && <p role="status">{words.noNumber(MOST)}</p>}
      {!many && (
        <Key look="answer" off={wrong} onPress={() => put(known ? { amount: number } : {})}>
          {typed.trim() === "" ? words.unknown : words.putIn}
        </Key>
      )}
    </>
  );
}

const UNITS: Partial<Record<Put["what"], "amps" | "watts" | "ohms">> = {
  lamp: "watts",
  "LED lamp": "watts",
  heater: "watts",
  fan: "amps",
  pump: "amps",
  "reversing motor": "amps",
  horn: "amps",
  valve: "ohms",
  resistor: "ohms",
};

function PlugAsked({ view, onStep }: QuestionProps) {
  const [id, setId] = useState("");
  const [pins, setPins] = useState("");
  const [way, setWay] = useState("");
  const [together, setTogether] = useState(true);
  return (
    <>
      {view.together > 1 && (
        <Toggles
          question={words.together}
          options={[
            { value: true, name: words.all(view.together) },
            { value: false, name: words.one },
          ]}
          chosen={together}
          onChoose={setTogether}
        />
      )}
      {view.plugs.map((plug) => (
        <Key
          key={plug.id}
          look="answer"
          onPress={() => onStep({ do: "plug", id: plug.id, way, together })}
        >
          {plug.name}
        </Key>
      ))}
      <Field name={words.plugName} value={id} onValue={setId} />
      <Field name={words.pins} value={pins} onValue={setPins} />
      <Field name={words.way} value={way} onValue={setWay} />
      <Key look="answer" onPress={() => onStep({ do: "plug", id, pins, way, together })}>
        {words.putIn}
      </Key>
    </>
  );
}

function CopyAsked({ view, onStep }: QuestionProps) {
  const [own, setOwn] = useState(false);
  return (
    <>
      <Toggles
        question={words.earths}
        options={[
          { value: false, name: words.same },
          { value: true, name: words.own },
        ]}
        chosen={own}
        onChoose={setOwn}
      />
      <Toggles
        question={words.copy}
        options={view.branches.map(({ id, name }) => ({ value: id, name }))}
        chosen={null}
        onChoose={(of) => onStep({ do: "copy", of, own_earth: own })}
      />
    </>
  );
}

function ChangeAsked({ view, onStep }: QuestionProps) {
  const [wire, setWire] = useState(view.wires.at(-1)?.id ?? "");
  const [element, setElement] = useState("");
  const [field, setField] = useState<Change["field"]>("id");
  const [value, setValue] = useState("");
  const colour = view.wires.find(({ id }) => id === wire)?.colour ?? "";
  const base = colour.split("/")[0] ?? "";
  const paint = (code: string) =>
    onStep({ do: "change", element: wire, field: "colour", value: code });
  return (
    <>
      <label class="field">
        {words.element}
        <select value={wire} onChange={(event) => setWire(event.currentTarget.value)}>
          {view.wires.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <Toggles
        question={words.colour}
        options={COLOURS.map(asOption)}
        chosen={base || null}
        onChoose={paint}
      />
      {base && (
        <Toggles
          question={words.second}
          options={COLOURS.filter((code) => code !== base).map(asOption)}
          chosen={colour.split("/")[1] ?? null}
          onChoose={(code) => paint(`${base}/${code}`)}
        />
      )}
      <Field name={`${words.element} (F1, X1, W2)`} value={element} onValue={setElement} />
      <Toggles
        question={words.field}
        options={words.fields as { value: Change["field"]; name: string }[]}
        chosen={field}
        onChoose={setField}
      />
      <Field name={words.value} value={value} onValue={setValue} />
      <Key look="answer" onPress={() => onStep({ do: "change", element, field, value })}>
        {words.keep}
      </Key>
    </>
  );
}

interface PlacesProps {
  question: string;
  places: BuildView["points"];
  onPlace: (point: string) => unknown;
}

function Places({ question, places, onPlace }: PlacesProps) {
  return (
    <Toggles
      question={question}
      options={places.map(({ point, name }) => ({ value: point, name }))}
      chosen={null}
      onChoose={onPlace}
    />
  );
}

interface FieldProps {
  name: string;
  value: string;
  onValue: (value: string) => unknown;
  inputMode?: "decimal" | "text";
}

function Field({ name, value, onValue, inputMode = "text" }: FieldProps) {
  return (
    <label class="field">
      {name}
      <input
        autoComplete="off"
        autoCapitalize="characters"
        inputMode={inputMode}
        maxLength={80}
        value={value}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
    </label>
  );
}
