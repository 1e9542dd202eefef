// Work that always comes to an end: with all of it done, at its first failure, or when it stands still.

/** So long nothing may move. The host may be as slow as it likes. */
const STILL_MS = 60_000;

/** As often it is looked in that time: hours that a phone slept in between count as one look. */
const LOOKS = 6;

export interface Attempt {
  /** Stops what is under way. */
  signal: AbortSignal;
  /** To be called when some of the work is done, be it a few bytes. */
  moved: () => void;
}

/** Work; the first failure of any part stops all parts. */
export async function attempt(work: (attempt: Attempt) => Promise<void>): Promise<void> {
  const stop = new AbortController();
  const { signal } = stop;
  let still = 0;
  const moved = () => {
    still = 0;
  };
  const look = () => {
    if (++still === LOOKS) stop.abort(new Error("Nothing has moved for a minute"));
  };
  const looking = setInterval(look, STILL_MS / LOOKS);
  try {
    // What a browser does not stop is not waited for.
    await Promise.race([work({ signal, moved }), rejected(signal)]);
  } catch (error) {
    stop.abort(error);
    throw error;
  } finally {
    clearInterval(looking);
  }
}

const rejected = (signal: AbortSignal) =>
  new Promise<never>((_, reject) => {
    signal.addEventListener("abort", () => reject(signal.reason), { once: true });
  });
