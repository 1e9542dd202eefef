// The one bridge of this page, and calls with the types that the core gave them.
import type { Calls } from "../generated/messages";
import { scriptUrl } from "../trusted";
import { Bridge, type CallOptions } from "./bridge";
import { CallError } from "./errors";
import { linkTo } from "./link";

declare const WORKER_FILE: string;

export const python = new Bridge(linkTo(scriptUrl(new URL(WORKER_FILE, document.baseURI))));

export type CallName = keyof Calls;

type Answer<T> = { ok: T } | { error: { code: string; sentence: string; details: unknown } };

/** Ask the core. Rejects with a CallError, whose sentence can be shown as it is. */
export async function call<Name extends CallName>(
  name: Name,
  request: Calls[Name]["request"],
  options?: CallOptions,
): Promise<Calls[Name]["response"]> {
  const text = await python.call(name, JSON.stringify(request), options);
  const answer = JSON.parse(text) as Answer<Calls[Name]["response"]>;
  if ("error" in answer)
    throw new CallError(answer.error.code, answer.error.sentence, answer.error.details);
  return answer.ok;
}
