/** Which screen is open. Kept in the browser's history, never in the address: the fragment is for links. */

import { signal } from "@preact/signals";
import { keep, recall } from "./keep";

export type JobScreen =
  | "complaint"
  | "work"
  | "pad"
  | "others"
  | "skip"
  | "story"
  | "circuit"
  | "place"
  | "wiring"
  | "photo"
  | "positions"
  | "suspects"
  | "history"
  | "report"
  | "share"
  | "record"
  | "why"
  | "fall"
  | "hidden"
  | "files"
  | "menu";

export type Route =
  | {
      screen:
        | "jobs"
        | "new"
        | "starter"
        | "builder"
        | "practice"
        | "open link"
        | "settings"
        | "erase"
        | "about";
    }
  | { screen: "job"; job: string; show: JobScreen; about?: string };

const home: Route = { screen: "jobs" };

export const route = signal<Route>(home);

/** Opens a screen; `replace` leaves no way back to the one before. */
export function go(next: Route, replace = false): void {
  if (replace) history.replaceState(next, "");
  else history.pushState(next, "");
  arrive(next);
}

/** Opens another screen of the job that is open. */
export function show(next: JobScreen, about?: string): void {
  const now = route.value;
  if (now.screen !== "job") return;
  go({ screen: "job", job: now.job, show: next, ...(about === undefined ? {} : { about }) });
}

/** Back to the screen before; after a reload, to the screen that stands above this one. */
export function back(): void {
  if (depth > 0) history.back();
  else go(above(route.value), true);
}

/** Back to the screen of the job that leads to this one, also where a reload has left none before it. */
export function backTo(next: JobScreen, about: string): void {
  const now = route.value;
  if (depth > 0 || now.screen !== "job") history.back();
  else go({ screen: "job", job: now.job, show: next, about }, true);
}

function above(now: Route): Route {
  if (now.screen !== "job" || now.show === "work") return home;
  return { screen: "job", job: now.job, show: "work" };
}

let depth = 0;

function arrive(next: Route): void {
  depth += 1;
  route.value = next;
  keep("route", next);
}

/** Opens the screen that was open when the page was last left. */
export function resumeRoute(): void {
  const last = (history.state as Route | null) ?? recall<Route>("route") ?? home;
  history.replaceState(last, "");
  route.value = last;
  addEventListener("popstate", (event) => {
    depth = Math.max(0, depth - 1);
    route.value = (event.state as Route | null) ?? home;
    keep("route", route.value);
  });
}
