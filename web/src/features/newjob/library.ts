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

/** Stores a new job on a sheet that the core has checked, and answers its id. */
export async function openJobOn(title: string, sheet: JobOpened["sheet"]): Promise<string> {
  const job = newId();
  await ports().store.append(job, "job opened", { title, sheet });
  return job;
}

/** Stores a new job on the circuit and answers its id. */
export const openOn = async (circuit: Circuit) => openJobOn(circuit.title, await sheetOf(circuit));
