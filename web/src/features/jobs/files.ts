/** Hands a text over as a file. */

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
