/** Unfinished typing that survives a reload or a killed page. */

import { type Signal, signal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { keep, recall } from "./keep";

export interface Draft<T> {
  value: Signal<T>;
  set(next: T): void;
  clear(): void;
}

/** A draft kept under `key`; `empty` is its value when nothing is kept. */
export function draft<T>(key: string, empty: T): Draft<T> {
  const name = `draft.${key}`;
  const value = signal(recall<T>(name) ?? empty);
  return {
    value,
    set(next) {
      value.value = next;
      keep(name, next);
    },
    clear() {
      value.value = empty;
      keep(name, null);
    },
  };
}

export function useDraft<T>(key: string, empty: T): Draft<T> {
  // `empty` only matters at the start.
  return useMemo(() => draft(key, empty), [key]);
}
