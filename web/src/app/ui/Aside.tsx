/** A screen that only tells something of the job: one key leads back. */

import type { ComponentChildren } from "preact";
import { back } from "../route";
import { JobHead, Trouble } from "./JobHead";
import { Key } from "./Key";
import { Screen } from "./Screen";

interface AsideProps {
  name: string;
  children: ComponentChildren;
}

export function Aside({ name, children }: AsideProps) {
  return (
    <Screen
      name={name}
      above={<JobHead />}
      keys={
        <Key look="main" onPress={back}>
          Back
        </Key>
      }
    >
      <Trouble />
      {children}
    </Screen>
  );
}
