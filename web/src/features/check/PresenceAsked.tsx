/** For a fault that comes and goes: a reading counts for what was there when it was taken. */

import { Toggles } from "../../app/ui/Toggles";
import { comesAndGoes, presence } from "./state";
import { words } from "./words";

const ANSWERS = [
  { value: "present", name: "Yes, it is there" },
  { value: "absent", name: "No, all works" },
] as const;

export function PresenceAsked() {
  if (!comesAndGoes.value) return null;
  return (
    <Toggles
      question={words.there}
      options={ANSWERS}
      chosen={presence.value.value}
      onChoose={(value) => presence.set(value)}
    />
  );
}
