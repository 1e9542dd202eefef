/** The line above every screen of a job: which job, and what is saved where. */

import { practising } from "../facts";
import { savedAt, trouble, troubles, view, working } from "../job";
import { coreTrouble, ports, storeTrouble } from "../ports";
import { timeOf } from "../time";
import { useInView } from "./useInView";

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

/** What failed, in one sentence each, above the content it concerns; what the last action came to is
 * brought into view. */
export function Trouble() {
  const said = [storeTrouble(), coreTrouble(), trouble.value];
  // Each refusal has a list of its own, an empty one too: what is told twice is brought into view twice.
  const top = useInView<HTMLDivElement>(trouble.value && troubles.value);
  return (
    <div ref={top} class="troubles">
      {[...new Set(said.filter(Boolean))].map((sentence) => (
        <p key={sentence} class="trouble" role="alert">
          {sentence}
        </p>
      ))}
      {troubles.value.length > 0 && (
        <ul class="plain">
          {troubles.value.map((each) => (
            <li key={each}>{each}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
