/** The steps of a save, in their order. "event written" comes once for each event of the action. */
export type SaveStep =
  | "asked"
  | "hashed"
  | "transaction opened"
  | "number taken"
  | "event written"
  | "counter written"
  | "complete"
  | "witness written"
  | "others told";

/** Called at each step. Tests put in a function that ends the page there, or that throws. */
export const steps: { at: (step: SaveStep) => void } = { at: () => {} };
