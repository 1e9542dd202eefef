/** A key that opens the camera, or the pictures that the phone has. */

import { useEffect, useRef } from "preact/hooks";
import { chosen } from "../../app/ui/chosen";
import { Key } from "../../app/ui/Key";
import type { Taking } from "./useTaking";
import { words } from "./words";

export function PictureKey({ taking, camera }: { taking: Taking; camera?: boolean }) {
  const input = useRef<HTMLInputElement>(null);
  const name = camera ? words.take : words.choose;
  // Told by the browser where the camera was refused or left.
  useEffect(() => {
    const chooser = input.current;
    if (!chooser || !camera) return;
    chooser.addEventListener("cancel", taking.noneCame);
    return () => chooser.removeEventListener("cancel", taking.noneCame);
  }, [camera]);
  return (
    <>
      <Key look="small" off={taking.busy} onPress={() => input.current?.click()}>
        {name}
      </Key>
      <input
        ref={input}
        hidden
        type="file"
        accept="image/*"
        capture={camera ? "environment" : undefined}
        onChange={() => taking.take(chosen(input.current))}
      />
    </>
  );
}
