// Everything that can go wrong with a call, each with a sentence for the person.

/** The core, or the way to it, could not answer a call. */
export class CallError extends Error {
  constructor(
    readonly code: string,
    readonly sentence: string,
    readonly details: unknown = [],
  ) {
    super(sentence);
  }
}

/** A newer call of the same name has made this one pointless. */
export class Superseded extends CallError {
  constructor(name: string) {
    super("superseded", `A newer ${name} has taken the place of this one.`);
  }
}

/** The worker died twice over the same call. */
export class WorkerDied extends CallError {
  constructor(name: string) {
    super(
      "worker_died",
      "Python stopped twice while it worked on this. What you entered is kept; " +
        "change the last entry or start the page again.",
      [name],
    );
  }
}

/** Python cannot be started at all. */
export class NoPython extends CallError {
  constructor(reason: string) {
    super(
      "no_python",
      "Python could not be started, so nothing can be computed now. " +
        "What you entered is kept. Try again, with a network if there is one.",
      [reason],
    );
  }
}
