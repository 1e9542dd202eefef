/** The key that opens the explanation of a check's expected value. */

import type { Check } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { askWhy } from "./state";
import { words } from "./words";

export function WhyKey({ check }: { check: Check }) {
  return (
    <Key look="small" onPress={() => askWhy(check)}>
      {words.name}
    </Key>
  );
}
