/** Choices that belong to the phone and not to a job. */

import { effect, type Signal, signal } from "@preact/signals";
import { keep, recall } from "./keep";
import type { ToolsStated } from "./types";

export type Theme = "phone" | "light" | "dark";
export type Hand = "right" | "left";
export type Instrument = ToolsStated["instruments"][number];

function preference<T>(key: string, otherwise: T): Signal<T> {
  const value = signal(recall<T>(key) ?? otherwise);
  effect(() => keep(key, value.value));
  return value;
}

export const theme = preference<Theme>("theme", "phone");
export const hand = preference<Hand>("hand", "right");
export const instruments = preference<Instrument[]>("instruments", ["meter"]);
export const helper = preference("helper", false);

/** Puts theme and hand on the document, where the style sheets read them. */
export function dressDocument(): void {
  effect(() => {
    document.documentElement.dataset.theme = theme.value;
    document.documentElement.dataset.hand = hand.value;
  });
}
