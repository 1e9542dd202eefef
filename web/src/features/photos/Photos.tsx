/** The photos of a connector's half beside its face: small, each a key that shows it large. */

import { show } from "../../app/route";
import { timeOf } from "../../app/time";
import { keyOf, nameOf, type Photo } from "./state";
import { usePhoto } from "./usePhoto";
import type { Taking } from "./useTaking";
import { words } from "./words";

interface PhotosProps {
  photos: readonly Photo[];
  taking: Taking;
}

export function Photos({ photos, taking }: PhotosProps) {
  return (
    <section class="photos" aria-label={words.list}>
      {photos.length > 0 && (
        <ul class="photo-strip">
          {photos.map((photo) => (
            <li key={keyOf(photo)}>
              <Small photo={photo} />
            </li>
          ))}
        </ul>
      )}
      <p role="status">{taking.said}</p>
    </section>
  );
}

function Small({ photo }: { photo: Photo }) {
  const address = usePhoto(photo);
  const at = timeOf(photo.at);
  return (
    <button
      type="button"
      class="photo-key"
      aria-label={words.open(nameOf(photo), at)}
      onClick={() => show("photo", keyOf(photo))}
    >
      {address ? (
        <img class="photo-small" src={address} alt="" />
      ) : (
        <span class="photo-small">{address === null && words.missing}</span>
      )}
      <span>{photo.shows === "half" ? at : words.oldPlug}</span>
    </button>
  );
}
