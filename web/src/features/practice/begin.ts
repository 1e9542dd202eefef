/** Begins a practice job: the core hides something, the phone stores it. */

import { ports } from "../../app/ports";
import type { Circuit, Entry } from "../../app/types";
import { newId } from "../../storage";
import { sheetOf } from "../newjob/library";

/** Stores a new practice job on the circuit and answers its id; waits for Python where it still starts. */
export async function practiseOn(circuit: Circuit): Promise<string> {
  const { core, store } = ports();
  const sheet = await sheetOf(circuit);
  const seed = crypto.getRandomValues(new Uint32Array(1))[0] ?? 0;
  const { entries } = await core.call("practice_begin", { sheet, seed: seed >>> 1 });
  const job = newId();
  await store.appendMany(entries.map((entry) => ({ job, ...(entry as Entry) })));
  return job;
}
