/** The circuits that come with the site. */

import { ports } from "../../app/ports";
import type { Circuit, JobOpened } from "../../app/types";
import { newId } from "../../storage";
import { words } from "./words";

declare const CIRCUITS_FILE: string;

async function fetchJson<T>(path: string): Promise<T> {
  const answer = await fetch(path).catch(() => undefined);
  if (!answer?.ok) throw new Error(words.unread);
  return (await answer.json()) as T;
}

export const circuits = () => fetchJson<Circuit[]>(CIRCUITS_FILE);

export const ABOUT = ["motors", "lamps", "heaters", "sensors", "horns", "batteries", "data bus"];

export const isAbout = ({ about }: Circuit, wanted: string) =>
  wanted === "" || about.includes(wanted);

/** As it is compared: an accent is one sign with its letter or a sign of its own, as keyboards have it. */
const plain = (text: string) => text.normalize("NFC").toLowerCase();

/** Every word typed stands somewhere in what is said of the circuit. */
export function isMeant(circuit: Pick<Circuit, "title" | "vehicle" | "summary">, typed: string) {
  const said = plain(`${circuit.title} ${circuit.vehicle} ${circuit.summary}`);
  return plain(typed)
    .split(/\s+/)
    .every((word) => said.includes(word));
}

export const sheetOf = ({ file }: Circuit) => fetchJson<JobOpened["sheet"]>(file);

/** Stores a new job on a sheet that the core has checked, and answers its id. */
export async function openJobOn(title: string, sheet: JobOpened["sheet"]): Promise<string> {
  const job = newId();
  await ports().store.append(job, "job opened", { title, sheet });
  return job;
}

/** Stores a new job on the circuit and answers its id. */
export const openOn = async (circuit: Circuit) => openJobOn(circuit.title, await sheetOf(circuit));
