/** A key by which a person chooses a file. Why nothing came of it is said below the key, with the file's name. */

import { useRef, useState } from "preact/hooks";
import { listedIn } from "../job";
import { chosen } from "./chosen";
import { Key } from "./Key";
import { type Refusal, Told } from "./Told";

interface FileKeyProps {
  name: string;
  /** Rejects with an error whose message is a sentence; then it has changed nothing. */
  onFile: (file: File) => Promise<unknown>;
}

interface Refused extends Refusal {
  listed: string[];
}

export function FileKey({ name, onFile }: FileKeyProps) {
  const input = useRef<HTMLInputElement>(null);
  const [reading, setReading] = useState("");
  const [refused, setRefused] = useState<Refused | null>(null);
  const refuse = (file: string, error: Error) =>
    setRefused({ sentence: notTaken(file, error.message), listed: listedIn(error) });
  const take = async () => {
    const file = chosen(input.current);
    if (file) {
      setRefused(null);
      setReading(file.name);
      await onFile(file).catch((error: Error) => refuse(file.name, error));
      setReading("");
    }
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
        onChange={take}
      />
      {reading && <p role="status">{`Reading ${named(reading)}.`}</p>}
      {refused && <Told refused={refused} />}
      {refused && refused.listed.length > 0 && (
        <ul class="plain">
          {refused.listed.map((each) => (
            <li key={each}>{each}</li>
          ))}
        </ul>
      )}
    </>
  );
}

const LONGEST_NAME = 48;

/** Signs that are not seen, and those that turn the direction of writing, are no part of what is told. */
function named(file: string): string {
  const told = file.replace(/\p{C}/gu, "");
  return `“${told.length > LONGEST_NAME ? `${told.slice(0, LONGEST_NAME)}…` : told}”`;
}

export const notTaken = (file: string, why: string): string =>
  `${named(file)} was not taken in, and nothing was changed. ${why}`;
