/** Keys: everything a finger presses. All act when the finger lifts. */

import type { ComponentChildren } from "preact";
import { useCommit } from "../guard";

interface KeyProps {
  children: ComponentChildren;
  onPress: () => unknown;
  look?: "plain" | "main" | "answer" | "quiet" | "small";
  label?: string | undefined;
  pressed?: boolean | undefined;
  off?: boolean;
  /** For a moment it takes no touch; it does not look off, for that would flicker. */
  resting?: boolean;
}

export function Key(props: KeyProps) {
  const { children, onPress, look = "plain", label, pressed, off, resting } = props;
  return (
    <button
      type="button"
      class={off ? `key key-${look} key-off` : `key key-${look}`}
      aria-label={label}
      aria-pressed={pressed}
      disabled={off || resting}
      onClick={onPress}
    >
      {children}
    </button>
  );
}

/** A key that stores something: once per double tap, and not in the first moment of a screen. */
export function CommitKey({ onPress, off, ...rest }: KeyProps) {
  const { open, press } = useCommit(onPress);
  return <Key {...rest} off={off ?? false} resting={!open} onPress={press} />;
}
