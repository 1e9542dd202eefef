// What the page and the offline worker say to each other.

export type ToWorker =
  /** Put this release in the place of the running one. */
  | { say: "take over" }
  /** Tell how much is stored, fetch what is missing, remove what is old. */
  | { say: "check" };

export interface FromWorker {
  release: string;
  stored: number;
  of: number;
}
