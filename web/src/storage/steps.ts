/** The steps of a save, in their order. "event written" comes once for each event of the action, "photo
 * written" before it where it has one. */
export const SAVE_STEPS = [
  "asked",
  "hashed",
  "transaction opened",
  "number taken",
  "photo written",
  "event written",
  "counter written",
  "complete",
  "witness written",
  "others told",
] as const;

export type SaveStep = (typeof SAVE_STEPS)[number];

/** Called at each step. Tests put in a function that ends the page there, or that throws. */
export const steps: { at: (step: SaveStep) => void } = { at: () => {} };
