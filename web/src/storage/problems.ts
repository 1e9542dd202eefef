export type ProblemCode = "full" | "refused" | "newer" | "lost" | "unfit" | "gone";

/** Why the store did not do as asked; the message is a sentence for the screen. */
export class StorageProblem extends Error {
  constructor(
    readonly code: ProblemCode,
    sentence: string,
  ) {
    super(sentence);
    this.name = "StorageProblem";
  }
}

export const FULL =
  "Not saved: this phone has no room left. Everything saved before is still here. " +
  "Export your jobs, free some space, then enter it again.";

/** Browsers do not say which it was: Chromium calls blocked site data and a damaged store the same. */
export const REFUSED =
  "This browser does not let Footwell store anything, so nothing can be saved or read here. " +
  "Leave private browsing or allow site data, close all tabs of Footwell and open it again. " +
  "If jobs stored here stay away, open your last export or link.";

export const NEWER =
  "A newer Footwell has opened the store on this phone. Reload this page to go on; nothing is lost.";

export const LOST =
  "Not saved: the browser closed the store twice in a row. Everything saved before is still there. " +
  "Reload this page, then enter it again.";

export const GONE = "Not saved: this job has been erased from this phone, in another tab.";

export const INSECURE =
  "Footwell can only store jobs when its address begins with https. Open it at its https address.";

/** The browser's error as one of ours. An error that is not the browser's is a fault of the code: as it is. */
export function asProblem(fault: unknown): unknown {
  if (!(fault instanceof DOMException)) return fault;
  switch (fault.name) {
    case "QuotaExceededError":
      return new StorageProblem("full", FULL);
    case "VersionError":
      return new StorageProblem("newer", NEWER);
    case "ConstraintError":
    case "DataError":
      return fault;
    default:
      return new StorageProblem("lost", LOST);
  }
}

/** Why the database did not open at all. Browsers that store nothing differ in how they say so. */
export function asOpeningProblem(fault: unknown): unknown {
  const name = fault instanceof DOMException ? fault.name : "";
  if (name === "QuotaExceededError" || name === "VersionError" || isCutOff(fault))
    return asProblem(fault);
  return new StorageProblem("refused", REFUSED);
}

/** True when the browser broke off opening the database, as it does while it clears the site's data. */
export const isCutOff = (fault: unknown): boolean =>
  fault instanceof DOMException && fault.name === "AbortError";

/** True when the connection to the database is gone or going: a new one may do. */
export function isLostConnection(fault: unknown): boolean {
  const names = ["InvalidStateError", "AbortError", "UnknownError", "TransactionInactiveError"];
  return fault instanceof DOMException && names.includes(fault.name);
}
