/** What the last act came to where it could not be. */

import { useInView } from "./useInView";

export interface Refusal {
  sentence: string;
}

export function Told({ refused }: { refused: Refusal }) {
  const told = useInView<HTMLParagraphElement>(refused);
  return (
    <p ref={told} class="trouble" role="alert">
      {refused.sentence}
    </p>
  );
}
