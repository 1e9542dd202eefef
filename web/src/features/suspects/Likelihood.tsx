/** A word of likelihood with its number on the same line, and a bar of that length. */

import { percent } from "../../app/number";

export function Likelihood({ said, share }: { said: string; share: number }) {
  const number = percent(share);
  return (
    <div class="likelihood">
      <p>
        {said} <b>{said.includes("%") ? "" : number}</b>
      </p>
      <svg class="share" width="100%" height="8" aria-hidden="true">
        <rect class="share-all" width="100%" height="8" rx="4" />
        <rect class="share-this" width={number.replace(" ", "")} height="8" rx="4" />
      </svg>
    </div>
  );
}
