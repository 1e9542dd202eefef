// The one bridge of this page, and calls with the types that the core gave them.
import type { Calls } from "../generated/messages";
import { scriptUrl } from "../trusted";
import { Bridge, type CallOptions } from "./bridge";
import { CallError } from "./errors";
import { linkTo } from "./link";
import { makingImage } from "./making_image";

declare const WORKER_FILE: string;
declare const IMAGE_WORKER_FILE: string;

const script = (file: string) => scriptUrl(new URL(file, document.baseURI));

export const python = new Bridge(linkTo(script(WORKER_FILE)));

/** Have the image for the next start made, once Python has nothing to do. */
export const makeImageWhenIdle = () => makingImage(python, script(IMAGE_WORKER_FILE));

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
