/** The link in the address: taken out of it at once, opened only when the person says so. */

import { signal } from "@preact/signals";
import { keep, recall } from "../../app/keep";
import { go } from "../../app/route";

const KEPT = "link";

/** The text of a link waiting to be looked at; survives a reload. */
export const link = signal<string | null>(recall<string>(KEPT));

/** Takes the fragment out of the address, so that no reload and no bookmark carries it on. */
export function takeLinkFromAddress(): void {
  const text = location.hash.slice(1);
  if (text === "") return;
  history.replaceState(history.state, "", location.pathname + location.search);
  link.value = text;
  keep(KEPT, text);
  go({ screen: "open link" });
}

export function forgetLink(): void {
  link.value = null;
  keep(KEPT, null);
}
