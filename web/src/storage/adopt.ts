import { type Draft, type Event, LONGEST_BODY, sha256 } from "./event";
import { StorageProblem } from "./problems";

/** The events of a link as drafts of a new job here: bodies as they came, first names beside them. */
export function adopted(events: readonly Event[], job: string): Promise<Draft[]> {
  checkNames(events);
  return Promise.all(
    events.map(async ({ device, n, kind, format, at, body }) => {
      if (body.length > LONGEST_BODY) throw unfit(`its entry ${n} is too long`);
      return { job, kind, format, at, body, sha256: await sha256(body), origin: { device, n } };
    }),
  );
}

function checkNames(events: readonly Event[]): void {
  if (events.length === 0) throw unfit("it holds no entries");
  const names = new Set(events.map(({ device, n }) => `${device} ${n}`));
  if (names.size < events.length) throw unfit("two of its entries bear the same number");
}

const unfit = (reason: string): StorageProblem =>
  new StorageProblem("unfit", `This job cannot be taken over: ${reason}. Ask for the link again.`);
