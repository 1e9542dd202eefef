/** Wires found in the ways of a connector half, while they are being looked at. */

import type { ConnectorView, WayView, WireView } from "../../app/types";

/** What was found by way: a wire's id, or null for an empty way. Ways not looked at are not there. */
export type Found = Record<string, string | null>;

export const connectorName = ({ name, half_name }: ConnectorView) => `${name}, ${half_name}`;

export const keyOf = ({ id, half }: { id: string; half: string }) => `${id}.${half}`;

/** Found as it was stored, or nothing where nobody has looked yet. */
export function storedFound(connector: ConnectorView): Found {
  if (!connector.inspected) return {};
  return Object.fromEntries(connector.ways.map(({ way, found }) => [way, found]));
}

/** The number that people see beside a way. */
export const numberOf = ({ ways }: ConnectorView, way: string) =>
  ways.find((each) => each.way === way)?.number ?? way;

/** What is in the draft is what was stored. */
export const sameFound = (connector: ConnectorView, found: Found) =>
  connector.ways.every(({ way, found: stored }) => found[way] === stored);

export function asItShouldBe(connector: ConnectorView): Found {
  return Object.fromEntries(connector.ways.map(({ way, should }) => [way, should]));
}

export const isComplete = (connector: ConnectorView, found: Found) =>
  connector.ways.every(({ way }) => way in found);

/** Wires that begin and end in this half: a bridge from way to way. */
export function bridges({ ways }: { ways: Pick<WayView, "should">[] }): ReadonlySet<string> {
  const all = ways.flatMap(({ should }) => [...pieces(should)]);
  return new Set(all.filter((wire, at) => all.indexOf(wire) !== at));
}

/** Found with a wire laid into a way, or laid beside what is in it. A wire sits in one way only, but for a
 * bridge: it is taken out of where it was said to be before, and a way that has nothing left is open again. */
export function withWire(
  found: Found,
  way: string,
  wire: string | null,
  beside: boolean,
  bridging: ReadonlySet<string> = new Set(),
): Found {
  const before = beside ? (found[way] ?? null) : null;
  const laid = wire && !wire.startsWith(SPARE) ? [...pieces(wire)] : [];
  const moved = new Set(laid.filter((piece) => !bridging.has(piece)));
  const rest = Object.entries(found).flatMap(([other, held]) => {
    const left = [...pieces(held)].filter((piece) => !moved.has(piece));
    if (other === way || left.length === pieces(held).size) return [[other, held]];
    return left.length > 0 ? [[other, left.join("+")]] : [];
  });
  const both = before && wire ? [...new Set([...pieces(before), ...pieces(wire)])].join("+") : wire;
  return { ...Object.fromEntries(rest), [way]: both };
}

/** Wires of the half that were found in no way at all; of wires crimped together each counts by itself. */
export function loose({ wires }: Pick<ConnectorView, "wires">, found: Found): string[] {
  const placed = new Set(Object.values(found).flatMap((held) => [...pieces(held)]));
  return [...new Set(wires.flatMap(({ id }) => [...pieces(id)]))].filter((id) => !placed.has(id));
}

const pieces = (held: string | null | undefined) => new Set(held?.split("+") ?? []);

/** The next way nobody has looked at yet, after `way`. */
export function nextOpen(
  ways: WayView[],
  found: Record<string, unknown>,
  way: string,
): string | null {
  const at = ways.findIndex((other) => other.way === way);
  const turned = [...ways.slice(at + 1), ...ways.slice(0, at)];
  return turned.find((other) => !(other.way in found))?.way ?? null;
}

/** Begins what stands for a wire that is not on the sheet; its colour follows. */
export const SPARE = "spare ";

/** Several wires that the sheet does not have together. */
const isBundle = (wires: WireView[], id: string) =>
  id.includes("+") && !wires.some((other) => other.id === id);

/** A wire's colour as a code; null where the sheet does not know it. */
export const codeOf = (colour: string | undefined) =>
  colour && /^[A-Z/]+$/.test(colour) ? colour : null;

/** The colour of a wire in a way, as written on the face; a dash for an empty way. */
export function colourOf(wires: WireView[], id: string | null | undefined): string {
  if (id === undefined) return "?";
  if (id === null) return "–";
  if (id.startsWith(SPARE)) return `${id.slice(SPARE.length) || "?"} !`;
  if (isBundle(wires, id))
    return id
      .split("+")
      .map((one) => colourOf(wires, one))
      .join(" + ");
  const wire = wires.find((other) => other.id === id);
  return (wire?.colour || wire?.name || id).replace("/", "/\u200b");
}

/** The same in words, to be read out. */
export function wireInWords(wires: WireView[], id: string | null | undefined): string {
  if (id === undefined) return "not looked at";
  if (id === null) return "empty";
  if (id.startsWith(SPARE)) return `a wire not on the sheet, ${id.slice(SPARE.length)}`;
  if (isBundle(wires, id))
    return id
      .split("+")
      .map((one) => wireInWords(wires, one))
      .join(" and ");
  const wire = wires.find((other) => other.id === id);
  return [wire?.colour, wire?.name].filter(Boolean).join(", ") || id;
}
