/** The frame of every step of a job: where the current is, the step, its keys, and the ways to other views. */

import type { ComponentChildren } from "preact";
import type { JobView } from "../types";
import { Bar } from "./Bar";
import { JobHead, Trouble } from "./JobHead";
import { Plumb } from "./Plumb";
import { Screen } from "./Screen";

interface StepScreenProps {
  view: JobView;
  name: string;
  /** The name is read out but not drawn: the content says it already. */
  quietName?: boolean;
  keys: ComponentChildren;
  children: ComponentChildren;
}

export function StepScreen({ view, name, quietName = false, keys, children }: StepScreenProps) {
  return (
    <Screen
      name={name}
      quietName={quietName}
      above={<JobHead />}
      beside={<Plumb view={view} />}
      bar={<Bar />}
      keys={keys}
    >
      <Trouble />
      {children}
    </Screen>
  );
}
