// What page and worker say to each other. Calls cross as text; their shapes are in ../generated.

/**
 * How Python starts: from the image of an earlier start if there is one, else from the bundle, or, when
 * that cannot be loaded, from the wheels it was made of.
 */
export type Way = "image" | "bundle" | "wheels";

export type Question =
  | { ask: "call"; id: number; name: string; text: string }
  | { ask: "memory"; id: number };

/** Told while Python starts; without an image it starts from the bundle. */
export type Starting = { tell: "loading"; message: string } | { tell: "no image" };

export type Telling =
  | { tell: "fetched" }
  | { tell: "alive" }
  | Starting
  | { tell: "ready" }
  | { tell: "failed"; reason: string }
  | { tell: "dying"; reason: string }
  | { tell: "working" }
  | { tell: "answer"; id: number; text: string };

/** Loading has a message, failed has a reason, ready has neither. */
export type PythonState =
  | { state: "loading"; message: string }
  | { state: "ready" }
  | { state: "failed"; reason: string };

/** Where the build put the files of the browser's Python, relative to the site. */
export interface PythonFiles {
  interpreter: string;
  bundle: string;
  coreWasm: string;
  corePlace: string;
  installers: string[];
  wheels: string[];
  lock: { info: Record<string, string>; packages: Record<string, never> };
}
