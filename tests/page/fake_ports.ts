/** The page's ports as a test wants them, and a job that is open on them. */
import { signal } from "@preact/signals";
import { openJob } from "../../web/src/app/job";
import { type CoreState, connect, type Ports } from "../../web/src/app/ports";
import { go, type JobScreen } from "../../web/src/app/route";
import type { Calls } from "../../web/src/app/types";
import { type Event, newId, type StoreState } from "../../web/src/storage";

export type Answers = {
  [Name in keyof Calls]?: (asks: Calls[Name]["request"]) => unknown;
};

/** What is not given rejects, as a store or a core does that cannot. */
export function connected(calls: Answers = {}, store: Record<string, unknown> = {}) {
  const state = signal<CoreState>({ state: "ready" });
  const core = {
    state,
    call: async (name: keyof Calls, asks: never) => {
      const answer = calls[name] as ((asks: never) => unknown) | undefined;
      if (!answer) throw new Error(`${name} cannot be answered.`);
      return answer(asks);
    },
    start: () => {},
  };
  const kept = {
    state: signal<StoreState>("ready"),
    revision: signal(0),
    onlyInFile: async () => 0,
    ...store,
  };
  connect({ core, store: kept, offline: {} } as unknown as Ports);
  return { state, store: kept };
}

export const note = (n: number, body: object = {}, kind = "note made"): Event => {
  const text = JSON.stringify(body);
  return { device: "d", n, job: "j", kind, format: 1, at: "2026-03-02T10:00:00Z", body: text };
};

/** Opens a new job with these events on one of its screens. The ports are as `connected`, with these too. */
export async function jobOpen(
  show: JobScreen,
  events: readonly Event[],
  calls: Answers = {},
  store: Record<string, unknown> = {},
) {
  const view = { title: "Fan", controls: [], diagram: { places: [] } };
  const made = connected({ look: () => view, ...calls }, { events: async () => events, ...store });
  const job = newId();
  go({ screen: "job", job, show });
  await openJob(job);
  return { job, ...made };
}
