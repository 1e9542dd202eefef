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
  useArrival(frame, name);
  useRoom(frame);
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
        <div class="foot">
          {keys && <div class="keys">{keys}</div>}
          {bar}
        </div>
      )}
    </div>
  );
}

/** Reading starts at the top of a new screen, also for those who hear it. Enter presses the main key. */
function useArrival(frame: { current: HTMLDivElement | null }, name: string): void {
  // A new name is a new screen.
  useEffect(() => {
    document.title = `${name} · Footwell`;
    frame.current?.scrollTo(0, 0);
    frame.current?.querySelector(".middle")?.scrollTo(0, 0);
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

/** Height below which the words between header and keys can no longer be read well, in the size of text. */
const READABLE_REM = 6;

/** Keys stay at the bottom edge while they leave room to read; with very large text they scroll along. */
function useRoom(frame: { current: HTMLDivElement | null }): void {
  useEffect(() => {
    const screen = frame.current;
    if (!screen) return;
    const watch = new ResizeObserver(() => {
      screen.classList.toggle("along", isCramped(screen));
      letKeysScroll(screen);
    });
    for (const part of [screen, ...screen.children]) watch.observe(part);
    return () => watch.disconnect();
  }, [frame]);
}

/** Words that scroll and hold nothing to press can still be scrolled from the keyboard. */
function letKeysScroll(screen: HTMLElement): void {
  const middle = screen.querySelector<HTMLElement>(".middle");
  if (!middle) return;
  const scrolls = middle.scrollHeight > middle.clientHeight;
  if (scrolls && !middle.querySelector("button, select, input, [tabindex='0']"))
    middle.tabIndex = 0;
  else middle.removeAttribute("tabindex");
}

function isCramped(screen: HTMLElement): boolean {
  const foot = screen.querySelector<HTMLElement>(".foot");
  const middle = screen.querySelector<HTMLElement>(".middle");
  if (!foot || !middle || isBeside(foot, middle)) return false;
  const above = screen.querySelector<HTMLElement>(".above")?.offsetHeight ?? 0;
  const room = screen.clientHeight - above - foot.offsetHeight;
  const size = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  return room < READABLE_REM * size && middle.scrollHeight > room;
}

const rightOf = (part: HTMLElement) => part.offsetLeft + part.offsetWidth;

const isBeside = (foot: HTMLElement, middle: HTMLElement) =>
  foot.offsetLeft >= rightOf(middle) || middle.offsetLeft >= rightOf(foot);
