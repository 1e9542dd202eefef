/** When a screen cannot be drawn: says so, and offers what is stored as a file. */

import type { ComponentChildren } from "preact";
import { useEffect, useErrorBoundary } from "preact/hooks";
import { Rescue } from "../features/jobs/Rescue";
import { dropKeptView } from "./job";
import { go } from "./route";
import { Key } from "./ui/Key";
import { Screen } from "./ui/Screen";

const words = {
  name: "This screen could not be drawn",
  safe: "What was saved is still on this phone.",
  jobs: "To the jobs",
};

export function Boundary({ children }: { children: ComponentChildren }) {
  const [error, reset] = useErrorBoundary();
  useEffect(() => {
    if (error && dropKeptView()) reset();
  }, [error]);
  if (!error) return <>{children}</>;
  const leave = () => {
    go({ screen: "jobs" }, true);
    reset();
  };
  return (
    <Screen
      name={words.name}
      keys={
        <Key look="main" onPress={leave}>
          {words.jobs}
        </Key>
      }
    >
      <p>{words.safe}</p>
      <p class="soft">{String(error.message ?? error)}</p>
      <Rescue />
    </Screen>
  );
}
