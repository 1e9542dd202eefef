/** A key that hands over the text of a file the person chooses. */

import { useRef } from "preact/hooks";
import { attempt } from "../../app/job";
import { chosen } from "../../app/ui/chosen";
import { Key } from "../../app/ui/Key";

/** A list or a sheet is far smaller; more would only keep the phone busy. */
const LARGEST = 2_000_000;

interface TextFileKeyProps {
  name: string;
  onText: (text: string) => unknown;
}

export function TextFileKey({ name, onText }: TextFileKeyProps) {
  const input = useRef<HTMLInputElement>(null);
  const read = async () => {
    const file = chosen(input.current);
    if (!file) return;
    const text = await attempt(() => textOf(file));
    if (text !== null) await onText(text);
  };
  return (
    <>
      <Key onPress={() => input.current?.click()}>{name}</Key>
      <input
        ref={input}
        class="unseen"
        type="file"
        tabIndex={-1}
        aria-label={name}
        onChange={read}
      />
    </>
  );
}

/** Text in UTF-8, or as older spreadsheets write it. */
async function textOf(file: File): Promise<string> {
  if (file.size > LARGEST)
    throw new Error(`${file.name} is larger than 2 MB. Choose the file of one circuit.`);
  const bytes = await file.arrayBuffer();
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
