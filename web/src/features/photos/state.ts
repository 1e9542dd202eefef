/** The photos of the job that is open, read from its events: they stand before Python does. */

import { computed } from "@preact/signals";
import { bodyOf, standing } from "../../app/facts";
import { jobId, recordIn, trouble } from "../../app/job";
import { timeOf } from "../../app/time";
import type { ConnectorPhotographed, Event } from "../../app/types";
import { photoNamed, sha256 } from "../../storage";
import { sheet } from "../circuit/sheet";
import { shrunk } from "./shrink";
import { words } from "./words";

const KIND = "connector photographed";

/** As many stay well within the file of a job. */
const MOST = 100;

export type Shows = NonNullable<ConnectorPhotographed["shows"]>;

/** The half of a connector, or the old plug that was in its place. */
export interface Subject {
  readonly connector: string;
  readonly half: "a" | "b";
  readonly shows: Shows;
}

export interface Photo extends Subject {
  readonly device: string;
  readonly n: number;
  readonly at: string;
  /** The SHA-256 of its bytes. */
  readonly name: string;
}

/** A stranger's body is looked at field by field. */
export const photosIn = (events: readonly Event[]): Photo[] =>
  events.flatMap((event) => photoOf(event) ?? []);

function photoOf(event: Event): Photo | undefined {
  const name = photoNamed(event);
  const body = bodyOf(event, KIND);
  if (name === undefined || typeof body?.connector !== "string") return undefined;
  const { device, n, at = "" } = event;
  const half = body.half === "b" ? "b" : "a";
  const shows = body.shows === "old plug" ? "old plug" : "half";
  return { device, n, at, connector: body.connector, half, shows, name };
}

export const photos = computed(() => photosIn(standing.value));

export const photosAt = (connector: string, half: string): Photo[] =>
  photos.value.filter((photo) => photo.connector === connector && photo.half === half);

/** Name of the photo's screen. */
export const keyOf = ({ device, n }: Photo) => `${device}:${n}`;

const connectorAt = (id: string) => sheet.value.connectors.find((other) => other.id === id);

/** What is on the photo, and which half. */
export function nameOf({ connector, half, shows }: Subject): string {
  const known = connectorAt(connector);
  const whole = known ? `${known.name}, ${half === "a" ? known.half_a : known.half_b}` : connector;
  return words.name(whole, shows);
}

/** When it was taken, and where the connector sits. */
export const whenAndWhere = ({ at, connector }: Photo) =>
  [words.taken(timeOf(at)), connectorAt(connector)?.at].filter(Boolean).join(" · ");

/** Makes a picture small and stores it with its entry; what to say of it. */
export async function takeOver(picture: Blob, subject: Subject): Promise<string> {
  const job = jobId.value;
  if (photos.value.length >= MOST) return words.enough(MOST);
  const small = await shrunk(picture).catch((problem: Error) => problem.message);
  if (typeof small === "string") return small;
  const { bytes, width, height } = small;
  const name = await sha256(bytes);
  if (photosAt(subject.connector, subject.half).some((photo) => photo.name === name))
    return words.already;
  const body = { ...subject, sha256: name, width, height, bytes: bytes.length };
  const stored = job !== null && (await recordIn(job, [{ kind: KIND, body, photo: bytes }]));
  return stored ? words.saved : trouble.value;
}
