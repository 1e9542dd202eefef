/** Files that somebody chose: their text, or in a sentence why there is none and what to do. */

import { StorageProblem } from "./problems";

export interface Wanted {
  /** Bytes; more would only exhaust the phone. */
  readonly most: number;
  /** What to choose, as a sentence. */
  readonly choose: string;
  /** How text is read that is neither UTF-8 nor UTF-16: as older spreadsheets write it, or with marks for
   * the damaged signs, so that sound lines stay. */
  readonly otherwise: "windows-1252" | "utf-8";
}

/** What is often chosen by mistake, as its first bytes tell. */
function kindOf(begin: string): string | undefined {
  if (/^(\xff\xd8\xff|\x89PNG|GIF8|RIFF.{4}WEBP|.{4}ftyp(hei|mif|avi))/s.test(begin))
    return "a picture";
  if (begin.startsWith("%PDF")) return "a PDF";
  return PACKED.some((first) => begin.startsWith(first))
    ? "a spreadsheet, a document or a packed folder"
    : undefined;
}

/** ZIP, in which newer office programs write, and the form of older ones. */
const PACKED = ["PK\u0003\u0004", "\u00d0\u00cf\u0011\u00e0"];

/** The text of a file. Rejects with a StorageProblem; nothing was changed then. */
export async function textOf(file: Blob, { most, choose, otherwise }: Wanted): Promise<string> {
  if (file.size > most) throw unfit(`It is larger than ${most / 1e6} MB. ${choose}`);
  if (file.size === 0) throw unfit(EMPTY);
  const bytes = new Uint8Array(
    await file.arrayBuffer().catch(() => {
      throw unfit("It could not be read. Copy it onto this phone, then choose it again.");
    }),
  );
  const begin = String.fromCharCode(...bytes.subarray(0, 12));
  const kind = kindOf(begin);
  if (kind) throw unfit(`It is ${kind}. ${choose}`);
  const text = decoded(bytes, utf16Of(begin), otherwise);
  if (text.slice(0, 1_000).includes("\0")) throw unfit(`It holds no text. ${choose}`);
  return text;
}

export const EMPTY = "It is empty: nothing of it arrived. Have it sent or save it once more.";

/** Editors and spreadsheets that write two bytes a sign put a mark first, or none before a plain letter. */
function utf16Of(begin: string): "utf-16le" | "utf-16be" | undefined {
  if (/^(\xff\xfe|[^\0]\0[^\0])/s.test(begin)) return "utf-16le";
  return /^(\xfe\xff|\0[^\0]\0)/s.test(begin) ? "utf-16be" : undefined;
}

function decoded(bytes: Uint8Array, utf16: string | undefined, otherwise: string): string {
  try {
    return new TextDecoder(utf16 ?? "utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder(utf16 ?? otherwise).decode(bytes);
  }
}

export const unfit = (sentences: string): StorageProblem => new StorageProblem("unfit", sentences);
