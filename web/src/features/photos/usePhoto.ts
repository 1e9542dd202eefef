/** The address of a stored photo for as long as it is shown. */

import { useEffect, useState } from "preact/hooks";
import { jobId } from "../../app/job";
import { ports } from "../../app/ports";
import type { Photo } from "./state";

/** Undefined while it is being fetched, null where it is not on this phone. */
export function usePhoto({ name }: Photo): string | null | undefined {
  const [address, setAddress] = useState<string | null>();
  const job = jobId.value;
  useEffect(() => {
    if (!job) return;
    let made: string | undefined;
    let shown = true;
    const show = (photo: Blob | undefined) => {
      if (!shown) return;
      made = photo && URL.createObjectURL(photo);
      setAddress(made ?? null);
    };
    ports()
      .store.photo(job, name)
      .then(show, () => show(undefined));
    return () => {
      shown = false;
      if (made) URL.revokeObjectURL(made);
    };
  }, [job, name]);
  return address;
}
