/** How much room the store takes, as a sentence. */
export async function roomSentence(): Promise<string> {
  const { usage, quota } = (await navigator.storage?.estimate?.()) ?? {};
  if (usage === undefined || quota === undefined)
    return "This browser does not say how much room is left.";
  return `Footwell takes ${megabytes(usage)} on this phone; the browser allows it ${megabytes(quota)}.`;
}

/** Ask the browser to keep the store when room gets short; its answer as a sentence. */
export async function keepSentence(): Promise<string> {
  if (!navigator.storage?.persist)
    return "This browser cannot promise to keep your jobs. Export them now and then.";
  return (await navigator.storage.persist())
    ? "The browser has agreed to keep your jobs when room gets short."
    : "The browser has not agreed to keep your jobs when room gets short. Export them now and then.";
}

const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`;
