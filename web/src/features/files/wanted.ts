/** The text of a file of one circuit; what is another of Footwell's files is told as such. */

import { StorageProblem, textOf, type Wanted } from "../../storage";
import { words } from "./words";

/** A circuit's list or sheet is far smaller. */
const LARGEST = 2_000_000;

const wanted = (choose: string): Wanted => ({ most: LARGEST, choose, otherwise: "windows-1252" });

/** Rejects with a StorageProblem where the file cannot be what is wanted. */
export async function circuitText(file: Blob, form: "sheet" | "list"): Promise<string> {
  const choose = words.choose[form];
  const text = await textOf(file, wanted(choose));
  const begin = text.trimStart();
  if (begin.startsWith('{"footwell"')) throw new StorageProblem("unfit", words.isJobs);
  const found = begin.startsWith("{") ? "sheet" : "list";
  if (found !== form && begin) throw new StorageProblem("unfit", `${words.isNo[form]} ${choose}`);
  return text;
}
