/** The story while it is being told, and the events it becomes. */

import { story, tools } from "../../app/facts";
import { helper, instruments } from "../../app/prefs";
import type { Entry, StoryTold } from "../../app/types";
import { sameTools } from "./ToolTicks";

export type Story = Required<StoryTold>;

export const emptyStory: Story = {
  words: "",
  dead_now: "unknown",
  renewed: [],
  rewired: [],
  seen: [],
};

export const storyNow = (): Story => ({ ...emptyStory, ...story.value });

/** What changed since the story was last told; nothing where nothing did. */
export function entriesOf(told: Story): Entry[] {
  const entries: Entry[] = [];
  if (JSON.stringify(told) !== JSON.stringify(storyNow()))
    entries.push({ kind: "story told", body: told });
  const stated = tools.value;
  const same =
    stated &&
    sameTools(stated.instruments, instruments.value) &&
    (stated.helper ?? false) === helper.value;
  if (!same)
    entries.push({
      kind: "tools stated",
      body: { instruments: instruments.value, helper: helper.value },
    });
  return entries;
}
