/** The sheet of the job as it stands after the edits made on the vehicle. */

import { computed } from "@preact/signals";
import { bodyOf, opened, standing } from "../../app/facts";
import { view } from "../../app/job";
import type { SheetChange } from "../../app/types";

export interface Wire {
  id: string;
  start: string;
  end: string;
  colour?: string | null;
  mm2?: number | null;
}

export interface Part {
  id: string;
  kind: string;
  name: string;
  probe?: string[];
  values?: Record<string, unknown>;
}

export interface Connector {
  id: string;
  name: string;
  half_a: string;
  half_b: string;
  at?: string;
  rows: string[][];
  numbers?: Record<string, string>;
  spots?: Record<string, number[]>;
  part_ways?: Record<string, string>;
  rating_amps?: number | null;
}

interface Sheet {
  parts: Part[];
  connectors: Connector[];
  wires: Wire[];
}

export const sheet = computed<Sheet>(() => {
  const written = (view.value?.sheet ?? opened.value?.sheet) as Partial<Sheet> | undefined;
  return {
    parts: written?.parts ?? [],
    connectors: written?.connectors ?? [],
    wires: written?.wires ?? [],
  };
});

/** Values found on the vehicle, by element and field; the newest counts. */
export const found = computed(() => {
  const bodies = standing.value.map((event) => bodyOf(event, "sheet edited"));
  const changes = bodies.flatMap((body) => body?.changes ?? []);
  return new Map(changes.map((change) => [keyOf(change), change.value ?? null]));
});

const keyOf = ({ element, field }: Pick<SheetChange, "element" | "field">) => `${element}.${field}`;

/** The value of a field as found, or as the sheet has it. */
export function valueAt<T>(
  element: string,
  field: string,
  written: T | null | undefined,
): T | null {
  const key = keyOf({ element, field });
  return found.value.has(key) ? (found.value.get(key) as T | null) : (written ?? null);
}

/** Wires that end at a place. */
export const wiresAt = (place: string) =>
  sheet.value.wires.filter(({ start, end }) => start === place || end === place);

export const connectorOf = (place: string) =>
  sheet.value.connectors.find(({ id }) => place.startsWith(`${id}.`));

/** Plugs in the loom that a wire may go through and does not end in, by name. */
export const passable = ({ start, end }: Wire) =>
  sheet.value.connectors
    .filter(({ part_ways }) => Object.keys(part_ways ?? {}).length === 0)
    .map(({ id }) => id)
    .filter((id) => !start.startsWith(`${id}.`) && !end.startsWith(`${id}.`));

/** Points on the body at which any number of wires may end. */
export const earthPoints = () => sheet.value.parts.filter(({ kind }) => kind === "earth_point");

/** Splices at the ends of wires. */
export const splicesAt = (wires: Wire[]) => {
  const owners = wires
    .flatMap(({ start, end }) => [start, end])
    .map((point) => point.split(".")[0]);
  return sheet.value.parts.filter(({ id, kind }) => kind === "splice" && owners.includes(id));
};

/** The unknown stretch that a wire leads into. */
export const stretchBehind = ({ start, end }: Wire) =>
  sheet.value.parts.find(
    ({ id, kind }) =>
      kind === "unknown_stretch" && (start.startsWith(`${id}.`) || end.startsWith(`${id}.`)),
  );

/** The fuse whose terminal a place is. */
export const fuseAt = (place: string) =>
  sheet.value.parts.find(({ id, kind }) => kind === "fuse" && place.startsWith(`${id}.`));
