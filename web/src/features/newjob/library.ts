/** The circuits that come with the site. */

import { ports } from "../../app/ports";
import type { Circuit, JobOpened } from "../../app/types";
import { newId } from "../../storage";

const FOLDER = "circuits/";

async function fetchJson<T>(path: string): Promise<T> {
  const answer = await fetch(path);
  if (!answer.ok)
    throw new Error(`The file ${path} could not be read. With the network on, try again.`);
  return (await answer.json()) as T;
}

export const circuits = () => fetchJson<Circuit[]>(`${FOLDER}index.json`);

export const ABOUT = ["motors", "lamps", "heaters", "sensors", "horns", "batteries", "data bus"];

export const isAbout = ({ about }: Circuit, wanted: string) =>
  wanted === "" || about.includes(wanted);

/** Every word typed stands somewhere in what is said of the circuit. */
export function isMeant({ title, vehicle, summary }: Circuit, typed: string): boolean {
  const said = `${title} ${vehicle} ${summary}`.toLowerCase();
  return typed
    .toLowerCase()
    .split(/\s+/)
    .every((word) => said.includes(word));
}

export const sheetOf = (circuit: Circuit) => fetchJson<JobOpened["sheet"]>(FOLDER + circuit.file);

/** Stores a new job on a circuit file, checked by the core, and answers its id. */
export async function openOnFile(text: string): Promise<string> {
  const { title, sheet } = await ports().core.call("read_sheet", { text });
  const job = newId();
  await ports().store.append(job, "job opened", { title, sheet });
  return job;
}

/** Stores a new job on the circuit and answers its id. */
export async function openOn(circuit: Circuit): Promise<string> {
  const sheet = await sheetOf(circuit);
  const job = newId();
  await ports().store.append(job, "job opened", { title: circuit.title, sheet });
  return job;
}
