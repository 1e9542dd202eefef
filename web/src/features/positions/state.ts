/** What each load does in each position, while it is being told. */

import type { Controls, ControlView, JobView, LoadView, PositionsTried } from "../../app/types";
import { words } from "./words";

/** Answers by the key of position and load; what is not there was not told. */
export type Told = Record<string, string>;

export const keyOf = (controls: Controls, load: string) =>
  `${Object.entries(controls)
    .map(([control, position]) => `${control}=${position}`)
    .join(",")}/${load}`;

/** Whether something was told of a load. */
export const isToldOf = (load: string, told: Told) =>
  Object.keys(told).some((key) => key.endsWith(`/${load}`));

/** What was told of all other loads. */
export const without = (load: string, told: Told): Told =>
  Object.fromEntries(Object.entries(told).filter(([key]) => !key.endsWith(`/${load}`)));

/** So many controls that are off are told together. */
const MANY_OFF = 3;

/** "Fan switch 2, ignition on", in the words of the sheet; many that are off together. */
export function nameOf(controls: Controls, all: ControlView[]): string {
  const named = all.flatMap(({ id, name, positions }) => {
    const position = positions.find((one) => one.id === controls[id]);
    return position ? [{ name, at: position.name }] : [];
  });
  const isOff = ({ at }: { at: string }) => at === words.off;
  if (named.filter(isOff).length < MANY_OFF) return told(named);
  const others = named.filter((one) => !isOff(one));
  return others.length > 0 ? `${told(others)} · ${words.othersOff}` : words.allOff;
}

const told = (named: { name: string; at: string }[]) =>
  named.map(({ name, at }) => `${name} ${at}`).join(" · ");

type Asked = { positions: Controls[]; loads: LoadView[] };

export const askedOf = (view: JobView): Asked => ({
  positions: view.asked_positions,
  loads: view.loads,
});

/** Every load doing nothing in every position. */
export function allDead({ positions, loads }: Asked): Told {
  const rows = positions.flatMap((controls) =>
    loads.map(({ id, dead }) => [keyOf(controls, id), dead] as const),
  );
  return Object.fromEntries(rows);
}

/** The told answers as the states of an event. */
export function statesOf(told: Told, { positions, loads }: Asked): PositionsTried["states"] {
  return positions.flatMap((controls) =>
    loads.flatMap(({ id }) => {
      const state = told[keyOf(controls, id)];
      return state ? [{ controls, load: id, state }] : [];
    }),
  );
}
