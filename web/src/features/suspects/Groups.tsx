/** Suspects that the readings cannot tell apart stand together as one group. */

import type { Suspect, SuspectGroup } from "../../app/types";
import { Likelihood } from "./Likelihood";
import { words } from "./words";

export function Group({ group }: { group: SuspectGroup }) {
  return (
    <section class="block">
      {group.suspects.length > 1 && <p class="soft">{words.together}</p>}
      <ul class="plain">
        {group.suspects.map((suspect) => (
          <li key={suspect.title}>
            <Named suspect={suspect} />
          </li>
        ))}
      </ul>
      <Likelihood said={group.words} share={group.share} />
      {group.apart_by && <p class="soft">{words.parts(group.apart_by)}</p>}
    </section>
  );
}

export function Proven({ suspect }: { suspect: Suspect }) {
  return (
    <section class="block block-proven">
      <Named suspect={suspect} />
      <Likelihood said={suspect.words} share={suspect.share} />
    </section>
  );
}

function Named({ suspect }: { suspect: Suspect }) {
  return (
    <>
      <h3>
        {suspect.title} {suspect.size && <span class="soft">{suspect.size}</span>}
      </h3>
      {suspect.note && <p class="soft">{suspect.note}</p>}
    </>
  );
}
