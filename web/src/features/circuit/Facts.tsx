/** What is found on the vehicle at a place: colour, cross-section, rating. Each is kept as an edit. */

import { record } from "../../app/job";
import { CommitKey } from "../../app/ui/Key";
import { COLOURS } from "./colours";
import { BRANCHES, FoundIn, PlacesFound } from "./PlacesFound";
import { connectorOf, fuseAt, splicesAt, valueAt, type Wire, wiresAt } from "./sheet";
import { words } from "./words";

/** Usual cross-sections of vehicle wires, mm². Common practice. */
const SECTIONS = [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10];
/** Ratings of blade fuses, A (ISO 8820-3). */
const FUSES = [3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60];
/** Usual ratings of a connector's way, A. Common practice. */
const RATINGS = [5, 10, 15, 20, 25, 40, 60];

export function Facts({ place }: { place: string }) {
  const connector = connectorOf(place);
  const fuse = fuseAt(place);
  const wires = wiresAt(place);
  return (
    <details class="facts">
      <summary>{words.facts}</summary>
      {wires.map((wire) => (
        <WireFacts key={wire.id} wire={wire} />
      ))}
      {splicesAt(wires).map(({ id }) => (
        <FoundIn key={id} inside={id} question={words.atSplice(id)} options={BRANCHES} />
      ))}
      {connector && (
        <Fact
          question={words.rating}
          element={connector.id}
          field="rating_amps"
          options={RATINGS}
          now={valueAt(connector.id, "rating_amps", connector.rating_amps)}
        />
      )}
      {fuse && (
        <Fact
          question={words.fuse}
          element={fuse.id}
          field="amps"
          options={FUSES}
          now={valueAt(fuse.id, "amps", fuse.values?.amps as number | undefined)}
        />
      )}
      {!connector && !fuse && wires.length === 0 && <p>{words.nothing}</p>}
    </details>
  );
}

function WireFacts({ wire }: { wire: Wire }) {
  const colour = valueAt(wire.id, "colour", wire.colour);
  const [base = null, tracer = null] = (colour ?? "").split("/");
  return (
    <>
      <Fact
        question={words.colour}
        element={wire.id}
        field="colour"
        options={COLOURS}
        now={base || null}
      />
      {base && (
        <Fact
          question={words.tracer}
          element={wire.id}
          field="colour"
          options={[
            base,
            ...COLOURS.filter((code) => code !== base).map((code) => `${base}/${code}`),
          ]}
          now={tracer ? colour : base}
        />
      )}
      <Fact
        question={words.section}
        element={wire.id}
        field="mm2"
        options={SECTIONS}
        now={valueAt(wire.id, "mm2", wire.mm2)}
      />
      <PlacesFound wire={wire} />
    </>
  );
}

interface FactProps<T> {
  question: string;
  element: string;
  field: string;
  options: readonly T[];
  now: T | null;
}

function Fact<T extends string | number>({ question, element, field, options, now }: FactProps<T>) {
  const keep = (value: T) =>
    record([{ kind: "sheet edited", body: { changes: [{ element, field, value }] } }]);
  return (
    <fieldset class="toggles">
      <legend>{question}</legend>
      <div class="toggle-row">
        {options.map((value) => (
          <CommitKey
            key={value}
            pressed={value === now}
            onPress={() => value !== now && keep(value)}
          >
            {String(value)}
          </CommitKey>
        ))}
      </div>
    </fieldset>
  );
}
