/** Hands texts over as files. */

import { attempt, trouble } from "../../app/job";
import { ports } from "../../app/ports";
import { words } from "./words";

/**
 * Saves one job, or everything, as a file of this phone; false where nothing could be read. What found no
 * room in it is told.
 */
export async function saveJobs(title: string, job?: string): Promise<boolean> {
  const { store } = ports();
  const file = await attempt(() => store.exported(job));
  if (!file) return false;
  saveFile(fileName(title), file.text);
  if (file.tooLarge) {
    trouble.value = words.tooLarge;
    return true;
  }
  await store.noteExported(job, file.incomplete);
  if (file.leftOut > 0) trouble.value = words.photosLeftOut(file.leftOut);
  return true;
}

/** Saves `text` as a file of this phone under `name`. */
export function saveFile(name: string, text: string, type = "application/x-ndjson"): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const anchor = document.createElement("a");
  anchor.href = address;
  anchor.download = name;
  anchor.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** A name that tells the jobs apart in a folder of downloads: letters, digits and the day. */
export function fileName(title: string, ending = "jsonl", now = new Date()): string {
  const plain = title
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "")
    .slice(0, 40);
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map((part) => String(part).padStart(2, "0"))
    .join("-");
  return ["footwell", plain.toLowerCase(), day].filter(Boolean).join("-").concat(`.${ending}`);
}
