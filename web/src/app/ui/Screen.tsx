/** The frame of every screen: words above, what to read in the middle, keys in reach of the thumb. */

import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";

interface ScreenProps {
  name: string;
  above?: ComponentChildren;
  beside?: ComponentChildren;
  children: ComponentChildren;
  keys?: ComponentChildren;
  bar?: ComponentChildren;
  /** The name is read out but not drawn: the content says it already. */
  quietName?: boolean;
}

export function Screen({ name, above, beside, children, keys, bar, quietName }: ScreenProps) {
  const frame = useRef<HTMLDivElement>(null);
  const foot = useRef<HTMLDivElement>(null);
  useArrival(frame, name);
  useRoom(frame, foot);
  return (
    <div class="screen" ref={frame}>
      {above && <header class="above">{above}</header>}
      {beside}
      <main class="middle">
        <h1 class={quietName ? "unseen" : "name"} tabIndex={-1}>
          {name}
        </h1>
        {children}
      </main>
      {(keys || bar) && (
        <div class="foot" ref={foot}>
          {keys && <div class="keys">{keys}</div>}
          {bar}
        </div>
      )}
    </div>
  );
}

/** Reading starts at the top of a new screen, also for those who hear it. Enter presses the main key. */
function useArrival(frame: { current: HTMLDivElement | null }, name: string): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new name is a new screen
  useEffect(() => {
    document.title = `${name} · Footwell`;
    frame.current?.scrollTo(0, 0);
    frame.current?.querySelector("h1")?.focus({ preventScroll: true });
    const press = (event: KeyboardEvent) => {
      const held = document.activeElement;
      if (event.key !== "Enter" || event.repeat || (held && !held.matches("h1, body"))) return;
      frame.current?.querySelector<HTMLButtonElement>(".key-main:not(:disabled)")?.click();
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  }, [name]);
}

/** Keys stay at the bottom edge while they leave room to read; with very large text they scroll along. */
function useRoom(
  frame: { current: HTMLDivElement | null },
  foot: { current: HTMLDivElement | null },
): void {
  useEffect(() => {
    if (!frame.current || !foot.current) return;
    const watch = new ResizeObserver(() => {
      if (!frame.current || !foot.current) return;
      const tall = foot.current.scrollHeight > frame.current.clientHeight * 0.6;
      frame.current.classList.toggle("along", tall);
    });
    watch.observe(foot.current);
    watch.observe(frame.current);
    return () => watch.disconnect();
  }, []);
}
