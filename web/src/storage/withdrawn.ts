import type { Event } from "./event";
import { fieldsOf, parsed } from "./foreign";

type Named = Pick<Event, "device" | "n" | "kind" | "body">;

const nameOf = ({ device, n }: { device: unknown; n: unknown }): string => `${device}:${n}`;

/** Names of events that no longer count; a withdrawal can itself be withdrawn. */
function withdrawn(all: readonly Named[]): Set<string> {
  const gone = new Set<string>();
  for (const event of [...all].reverse()) {
    if (event.kind !== "event withdrawn" || gone.has(nameOf(event))) continue;
    const { device, n } = fieldsOf(parsed(event.body));
    gone.add(nameOf({ device, n }));
  }
  return gone;
}

/** The events that still count, withdrawals left out. */
export function standingOf<E extends Named>(all: readonly E[]): E[] {
  const gone = withdrawn(all);
  return all.filter((event) => event.kind !== "event withdrawn" && !gone.has(nameOf(event)));
}
