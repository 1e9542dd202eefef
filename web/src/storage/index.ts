/** The events of this phone: kept before the screen says so, never overwritten. */
import { signal } from "@preact/signals";
import { adopted } from "./adopt";
import { draftOf, phoneIn, type Saved, save } from "./append";
import { textOf } from "./chosen";
import {
  Connection,
  contentsOf,
  countOf,
  inOneTransaction,
  newPhone,
  type Transaction,
} from "./database";
import { emptied as emptiedBody, eraseIn } from "./erase";
import { asNamed, type Draft, type Event, type NewEvent } from "./event";
import { type Imported, importInto } from "./exchange";
import { exportedCounts, forgetKept, noteExportOf } from "./exports";
import { JOBS_FILE, readFile } from "./file";
import { eraseImages } from "./image";
import { type JobSummary, storedEvents, summaries } from "./jobs";
import { type Exported, exportedFrom } from "./outgoing";
import { photoIn } from "./photos";
import { StorageProblem } from "./problems";
import { keepSentence, roomSentence } from "./space";
import { steps } from "./steps";
import { OtherTabs } from "./tabs";
import {
  forgetWitness,
  isDoubtful,
  missing,
  noteExported,
  noteStored,
  readWitness,
  type Witness,
} from "./witness";

export { textOf, type Wanted } from "./chosen";
export { type Bytes, type Event, type NewEvent, newId, sha256 } from "./event";
export type { Imported } from "./exchange";
export type { JobSummary } from "./jobs";
export { jpegSize, type Size } from "./jpeg";
export type { Exported } from "./outgoing";
export { LONGEST_SIDE, MOST_BYTES, photoNamed } from "./photos";
export { StorageProblem } from "./problems";
export { standingOf } from "./withdrawn";

/**
 * `failed`: nothing can be read or stored. `emptied`: works, but saved work is gone. `full`: the last
 * save found no room; everything before is there. Each with the sentence to show.
 */
export type StoreState =
  | "opening"
  | "ready"
  | { readonly failed: string }
  | { readonly emptied: string }
  | { readonly full: string };

export class Store {
  readonly state = signal<StoreState>("opening");

  /** Grows whenever something was stored, here or in another tab: read it where lists are shown. */
  readonly revision = signal(0);

  private readonly connection = new Connection();
  private readonly others = new OtherTabs(() => this.changed());

  /** Never rejects: what went wrong is the state. */
  async open(): Promise<void> {
    const noted = readWitness();
    try {
      const found = await this.connection.use(contentsOf);
      const ofNoted = await this.countOf(noted);
      const wasErased = noted?.device === found.phone.erased;
      const emptied = wasErased ? "" : missing(noted, found.count, ofNoted);
      this.state.value = emptied ? { emptied } : "ready";
      if (!emptied) noteStored(found);
    } catch (fault) {
      this.state.value = { failed: sentenceOf(fault) };
    }
  }

  /** One event, numbered; resolves when the browser has it safe. Rejects with a StorageProblem. */
  async append(job: string, kind: string, body: object): Promise<Event> {
    const [event] = await this.appendMany([{ job, kind, body }]);
    return event as Event;
  }

  /** The events of one action: all of them, or none. Where a job is named, it must not have been erased. */
  async appendMany(events: readonly NewEvent[], into?: string): Promise<Event[]> {
    steps.at("asked");
    const at = new Date().toISOString();
    return this.keep(await Promise.all(events.map((event) => draftOf(event, at))), into);
  }

  /** The events of a link as the new job `job`; from then on it is this phone's own. */
  async adopt(events: readonly Event[], job: string): Promise<Event[]> {
    steps.at("asked");
    return this.keep(await adopted(events, job));
  }

  /** A job's events in the order of their making, for the core. */
  events(job: string): Promise<Event[]> {
    return this.connection.use(async (db) => (await storedEvents(db, job)).map(asNamed));
  }

  /** How many of a job's entries hold something of a later release that only a file carries on. */
  onlyInFile(job: string): Promise<number> {
    return this.connection.use(
      async (db) => (await storedEvents(db, job)).filter(({ line }) => line !== undefined).length,
    );
  }

  jobs(): Promise<JobSummary[]> {
    return this.connection.use(summaries);
  }

  /** A photo of a job by the SHA-256 of its bytes; undefined where it is not on this phone. */
  async photo(job: string, name: string): Promise<Blob | undefined> {
    const bytes = await this.connection.use((db) => photoIn(db, job, name));
    return bytes && new Blob([bytes], { type: "image/jpeg" });
  }

  /** One job, or everything, as a file with its photos. */
  exported(job?: string): Promise<Exported> {
    return this.connection.use((db) => exportedFrom(db, job));
  }

  async exportText(job?: string): Promise<string> {
    return (await this.exported(job)).text;
  }

  /**
   * To be called when the file was handed over, so that the date of the last export is known. A job whose
   * photos found no room in it is in no file yet.
   */
  async noteExported(job?: string, incomplete: ReadonlySet<string> = new Set()): Promise<void> {
    noteExported(new Date().toISOString());
    const jobs = (await this.jobs()).filter(({ id }) => job === undefined || id === job);
    noteExportOf(jobs.filter(({ id }) => !incomplete.has(id)));
    this.changed();
  }

  /** Jobs with the number of their entries that are in no file handed over from this phone. */
  async unexported(): Promise<Map<string, number>> {
    const counts = exportedCounts();
    const jobs = await this.jobs();
    return new Map(jobs.map(({ id, count }) => [id, Math.max(0, count - (counts.get(id) ?? 0))]));
  }

  /** ISO time of the last export, or "". */
  get lastExport(): string {
    return readWitness()?.exported ?? "";
  }

  /** A file that somebody chose. Rejects with a StorageProblem; then nothing was added. */
  async importFile(file: Blob): Promise<Imported> {
    return this.importText(await textOf(file, JOBS_FILE));
  }

  async importText(text: string): Promise<Imported> {
    const file = await readFile(text);
    const imported = await this.watched(this.connection.use((db) => importInto(db, file)));
    await this.settle(imported);
    return imported;
  }

  /** The person has read what is missing: go on with what is there. */
  async goOn(): Promise<void> {
    forgetWitness();
    await this.open();
  }

  keepSentence = keepSentence;
  roomSentence = roomSentence;

  /** Erase one job from this phone: contents, drafts and kept views. Its numbers stay taken. */
  async eraseJob(job: string): Promise<void> {
    const nothing = await emptiedBody();
    await this.erase((tx) => eraseIn(tx, job, nothing), job);
    this.others.tell();
    this.changed();
  }

  /** Remove everything from this phone but light and hand; it starts again as a new one. */
  async erasePhone(): Promise<void> {
    await this.erase(async (tx) => {
      await tx.objectStore("events").clear();
      await tx.objectStore("photos").clear();
      const { device: erased } = await phoneIn(tx);
      await tx.objectStore("phone").put({ ...newPhone(), erased }, "self");
    });
    await eraseImages();
    await this.goOn();
    this.others.tell();
    this.changed();
  }

  /** What lies beside the store goes first: a page that dies in between leaves nothing of what is gone. */
  private async erase(work: (tx: Transaction) => Promise<void>, job?: string): Promise<void> {
    forgetKept(job);
    await this.connection.use((db) => inOneTransaction(db, work));
    forgetKept(job);
  }

  private async keep(drafts: readonly Draft[], into?: string): Promise<Event[]> {
    steps.at("hashed");
    const saved = await this.watched(save(this.connection, drafts, into));
    await this.settle(saved);
    return saved.events.map(asNamed);
  }

  private async settle(saved: Saved): Promise<void> {
    // Opened again it notes what is there now: the phone may have been erased since this was saved.
    if (this.state.value !== "ready" || isDoubtful(saved)) await this.open();
    else noteStored(saved);
    steps.at("witness written");
    this.others.tell();
    this.changed();
    steps.at("others told");
  }

  private async countOf(noted: Witness | undefined): Promise<number> {
    if (!noted) return 0;
    return this.connection.use((db) => countOf(db, noted.device, noted.last));
  }

  /** A full store is a state as well: the notice stays on the screen until a save finds room again. */
  private async watched<T>(saving: Promise<T>): Promise<T> {
    try {
      return await saving;
    } catch (fault) {
      if (fault instanceof StorageProblem && fault.code === "full")
        this.state.value = { full: fault.message };
      throw fault;
    }
  }

  private changed(): void {
    this.revision.value += 1;
  }
}

/** All that the store or the browser throws is an Error, a DOMException too. */
const sentenceOf = (fault: unknown): string => (fault as Error).message;
