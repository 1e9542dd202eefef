/** One photo over the whole screen, with keys for its size; two fingers do the same. */

import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { lastWithdrawal } from "../../app/facts";
import { back } from "../../app/route";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { CommitKey, Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { usePinch } from "../../app/usePinch";
import { withdraw } from "../history/state";
import { Undo } from "../history/Undo";
import { keyOf, nameOf, type Photo, photos, whenAndWhere } from "./state";
import { usePhoto } from "./usePhoto";
import { words } from "./words";

/** Times the screen. */
const LARGEST = 8;

export function PhotoScreen({ about }: { about?: string | undefined }) {
  const photo = photos.value.find((other) => keyOf(other) === about);
  return photo ? <Large photo={photo} /> : <Gone />;
}

function Large({ photo }: { photo: Photo }) {
  const [size, setSize] = useState(1);
  const frame = useRef<HTMLElement>(null);
  const zoom = (factor: number) => setSize((now) => Math.min(LARGEST, Math.max(1, now * factor)));
  usePinch(frame, zoom);
  useSameMiddle(frame, size);
  return (
    <Screen
      name={nameOf(photo)}
      quietName
      above={<JobHead />}
      keys={
        <>
          <div class="key-row">
            <Key look="small" label={words.smaller} off={size <= 1} onPress={() => zoom(1 / 1.5)}>
              −
            </Key>
            <Key look="small" onPress={() => setSize(1)}>
              {words.whole}
            </Key>
            <Key look="small" label={words.larger} off={size >= LARGEST} onPress={() => zoom(1.5)}>
              +
            </Key>
          </div>
          <div class="key-row">
            <Key look="small" onPress={back}>
              {words.back}
            </Key>
            <CommitKey look="small" label={words.removePhoto} onPress={() => withdraw(photo)}>
              {words.remove}
            </CommitKey>
          </div>
        </>
      }
    >
      <Trouble />
      <p class="soft">
        <b>{nameOf(photo)}</b>
        <br />
        {whenAndWhere(photo)}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must scroll from the keyboard too */}
      <section class="drawing" ref={frame} aria-label={words.picture} tabIndex={0}>
        <Picture photo={photo} size={size} />
      </section>
    </Screen>
  );
}

/** What was in the middle stays there when the picture grows or shrinks. */
function useSameMiddle(frame: { current: HTMLElement | null }, size: number): void {
  const before = useRef(size);
  useLayoutEffect(() => {
    const grown = size / before.current;
    before.current = size;
    if (!frame.current) return;
    const { scrollLeft, scrollTop, clientWidth, clientHeight } = frame.current;
    frame.current.scrollLeft = (scrollLeft + clientWidth / 2) * grown - clientWidth / 2;
    frame.current.scrollTop = (scrollTop + clientHeight / 2) * grown - clientHeight / 2;
  }, [size]);
}

function Picture({ photo, size }: { photo: Photo; size: number }) {
  const address = usePhoto(photo);
  const [broken, setBroken] = useState(false);
  if (address === undefined) return null;
  if (address === null) return <p class="do">{words.missingWhy}</p>;
  if (broken) return <p class="do">{words.broken}</p>;
  const side = `${100 * size}%`;
  return (
    <img
      class="photo-large"
      src={address}
      alt={nameOf(photo)}
      style={{ width: side, height: side }}
      onError={() => setBroken(true)}
    />
  );
}

function Gone() {
  return (
    <Screen
      name={words.gone}
      above={<JobHead />}
      keys={
        <div class="key-row">
          {lastWithdrawal.value && <Undo />}
          <Key look="main" onPress={back}>
            {words.back}
          </Key>
        </div>
      }
    >
      <Trouble />
      <p>{words.goneMeans}</p>
    </Screen>
  );
}
