/** Places for a probe, read from the stored sheet alone. */

import { type Connector, type Part, sheet } from "../circuit/sheet";

export interface Place {
  id: string;
  name: string;
}

export function placesOnSheet(): Place[] {
  const { connectors, parts } = sheet.value;
  return [...connectors.flatMap(waysOf), ...parts.flatMap(terminalsOf)];
}

/** Wires for a clamp, named by colour and ends. */
export const wiresOnSheet = (): Place[] =>
  sheet.value.wires.map(({ id, start, end, colour }) => ({
    id,
    name: `${colour ?? id}, ${start} to ${end}`,
  }));

function waysOf({ id, name, half_a, half_b, rows }: Connector): Place[] {
  return rows.flat().flatMap((way) => [
    { id: `${id}.${way}.a`, name: `${name}, way ${way}, ${half_a}` },
    { id: `${id}.${way}.b`, name: `${name}, way ${way}, ${half_b}` },
  ]);
}

function terminalsOf({ id, name, probe = [] }: Part): Place[] {
  return probe.map((terminal) => ({ id: `${id}.${terminal}`, name: `${name}, ${terminal}` }));
}
