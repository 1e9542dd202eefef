/** The bar at the bottom of every screen of a job: its other views, one tap away. */

import { type JobScreen, route, show } from "../route";
import { Icon, type IconName } from "./Icon";

const PLACES: { to: JobScreen; name: string; icon: IconName }[] = [
  { to: "work", name: "Now", icon: "now" },
  { to: "circuit", name: "Circuit", icon: "circuit" },
  { to: "suspects", name: "Suspects", icon: "suspects" },
  { to: "history", name: "Path", icon: "path" },
  { to: "menu", name: "More", icon: "more" },
];

export function Bar() {
  const here = route.value.screen === "job" ? route.value.show : null;
  return (
    <nav class="bar" aria-label="Views of this job">
      {PLACES.map(({ to, name, icon }) => (
        <button
          key={to}
          type="button"
          class="bar-key"
          aria-current={here === to ? "page" : undefined}
          onClick={() => here !== to && show(to)}
        >
          <Icon name={icon} />
          {name}
        </button>
      ))}
    </nav>
  );
}
