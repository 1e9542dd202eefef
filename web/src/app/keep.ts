/** Small things kept on the phone beside the events: preferences, drafts, the last view. */

const PREFIX = "footwell.";

/** The value kept under `key`, or null where nothing is kept or the browser refuses. */
export function recall<T>(key: string): T | null {
  try {
    const text = localStorage.getItem(PREFIX + key);
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null;
  }
}

/** Keeps `value`; a refusal loses a convenience, never an event, so it passes in silence. */
export function keep(key: string, value: unknown): void {
  try {
    if (value === null) localStorage.removeItem(PREFIX + key);
    else localStorage.setItem(PREFIX + key, JSON.stringify(value));
  } catch {
    // The events live elsewhere; the page works without this copy.
  }
}
