/** The finding for wires not yet stored; the newest question wins. */

import { useEffect, useState } from "preact/hooks";
import { attempt, events } from "../../app/job";
import { ports } from "../../app/ports";
import type { ConnectorView, WiringFinding } from "../../app/types";
import { type Found, isComplete } from "./state";

export function useFinding(connector: ConnectorView, found: Found): WiringFinding | null {
  const [finding, setFinding] = useState<WiringFinding | null>(connector.finding);
  const complete = isComplete(connector, found);
  // Asked again when what was found changes.
  useEffect(() => {
    let newest = true;
    setFinding(connector.finding);
    if (!complete) return;
    const request = { events: events.value, connector: connector.id, half: connector.half, found };
    attempt(() => ports().core.call("wiring", request)).then((answer) => {
      if (newest && answer) setFinding(answer.finding);
    });
    return () => {
      newest = false;
    };
  }, [JSON.stringify(found), connector.inspected, ports().core.state.value.state]);
  return complete ? finding : null;
}
