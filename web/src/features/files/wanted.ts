import type { Wanted } from "../../storage";

/** A circuit's list or sheet is far smaller. */
const LARGEST = 2_000_000;

export const circuitFile = (choose: string): Wanted => ({
  most: LARGEST,
  choose,
  otherwise: "windows-1252",
});
