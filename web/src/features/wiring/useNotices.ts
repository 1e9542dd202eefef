/** What the plug as read so far would change; null as long as nothing was read or it cannot be. */

import { useEffect, useState } from "preact/hooks";
import { attempt, events } from "../../app/job";
import { ports } from "../../app/ports";
import type { ConnectorView, OldPlugRead } from "../../app/types";

export function useNotices(
  { id, half }: ConnectorView,
  colours: OldPlugRead["colours"],
): string[] | null {
  const [notices, setNotices] = useState<string[] | null>(null);
  const any = Object.keys(colours).length > 0;
  // Asked again when another colour was read.
  useEffect(() => {
    let newest = true;
    setNotices(null);
    if (!any) return;
    const request = { events: events.value, connector: id, half, colours };
    attempt(() => ports().core.call("old_plug", request)).then((answer) => {
      if (newest) setNotices(answer?.notices ?? null);
    });
    return () => {
      newest = false;
    };
  }, [JSON.stringify(colours), ports().core.state.value.state]);
  return notices;
}
