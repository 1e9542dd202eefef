/** The line above every screen of a job: which job, and what is saved where. */

import { practising } from "../facts";
import { savedAt, trouble, view, working } from "../job";
import { coreTrouble, ports, storeTrouble } from "../ports";
import { timeOf } from "../time";

export function JobHead() {
  return (
    <>
      <span class="above-title">
        {practising.value ? "practice · no vehicle" : (view.value?.title ?? "")}
      </span>
      <span class="above-saved" role="status">
        {state()}
      </span>
    </>
  );
}

function state(): string {
  if (storeTrouble()) return "not saved";
  if (working.value && ports().core.state.value.state !== "failed") return "working it out…";
  return savedAt.value ? `saved ${timeOf(savedAt.value)} · this phone` : "on this phone";
}

/** What failed, in one sentence each, above the content it concerns. */
export function Trouble() {
  const said = [storeTrouble(), coreTrouble(), trouble.value];
  return (
    <>
      {[...new Set(said.filter(Boolean))].map((sentence) => (
        <p key={sentence} class="trouble" role="alert">
          {sentence}
        </p>
      ))}
    </>
  );
}
