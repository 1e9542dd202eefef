/** Work ahead of the first question, a piece at a time: what is asked meanwhile waits for one piece alone. */

import { events } from "../../app/job";
import { ports } from "../../app/ports";

export async function prepareWhile(isWanted: () => boolean): Promise<void> {
  const { core } = ports();
  const job = events.value;
  let ahead = { done: 0, left: 1 };
  while (isWanted() && ahead.left > 0)
    ahead = await core.call("prepare", { events: job, done: ahead.done });
}
