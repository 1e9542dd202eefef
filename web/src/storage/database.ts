import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB } from "idb";
import { type Bytes, newId, type StoredEvent } from "./event";
import {
  asOpeningProblem,
  asProblem,
  INSECURE,
  isCutOff,
  isLostConnection,
  StorageProblem,
} from "./problems";

/** This installation: its name, and the last number it gave. */
export interface Phone {
  readonly device: string;
  readonly n: number;
  /** Its name until all of it was erased: what was noted of that is not missing. */
  readonly erased?: string;
}

/** How much the store holds. */
export interface Contents {
  readonly phone: Phone;
  readonly count: number;
}

interface Schema extends DBSchema {
  /** Keyed by arrival. */
  events: {
    key: number;
    value: StoredEvent;
    indexes: { id: [string, number]; job: string; kind: [string, string] };
  };
  phone: { key: "self"; value: Phone };
  /** By job and SHA-256. */
  photos: { key: [string, string]; value: Bytes };
}

const STORES: ("events" | "phone" | "photos")[] = ["events", "phone", "photos"];

export type Database = IDBPDatabase<Schema>;
export type Transaction = IDBPTransaction<Schema, typeof STORES, "readwrite">;

const NAME = "footwell";
/** 1: events and phone. 2: photos too. */
const VERSION = 2;

export const newPhone = (): Phone => ({ device: newId(), n: 0 });

/** The one connection of this page. Opened when first used, and again when the browser took it away. */
export class Connection {
  private opened: Promise<Database> | undefined;

  /**
   * Run `work` on the database; where the connection turns out to be lost, once more on a new one.
   * `again` is true then: the first try may have been stored although its answer never came.
   */
  async use<T>(work: (db: Database, again: boolean) => Promise<T>): Promise<T> {
    try {
      return await work(await this.open(), false);
    } catch (fault) {
      if (!isLostConnection(fault)) throw asProblem(fault);
      this.opened = undefined;
      return this.useAgain(work);
    }
  }

  private async useAgain<T>(work: (db: Database, again: boolean) => Promise<T>): Promise<T> {
    try {
      return await work(await this.open(), true);
    } catch (fault) {
      throw asProblem(fault);
    }
  }

  private open(): Promise<Database> {
    this.opened ??= this.connect().catch((fault: unknown) => {
      this.opened = undefined;
      throw fault;
    });
    return this.opened;
  }

  private async connect(): Promise<Database> {
    if (!globalThis.isSecureContext) throw new StorageProblem("refused", INSECURE);
    try {
      return await this.openDatabase().catch((fault: unknown) => {
        // The browser was still removing the store when it was asked for.
        if (isCutOff(fault)) return this.openDatabase();
        throw fault;
      });
    } catch (fault) {
      throw asOpeningProblem(fault);
    }
  }

  private openDatabase(): Promise<Database> {
    return openDB<Schema>(NAME, VERSION, {
      upgrade: makeStores,
      // A newer release in another tab waits for this connection to go.
      blocking: (_current, _wanted, event) => {
        this.opened = undefined;
        (event.target as IDBDatabase).close();
      },
      terminated: () => {
        this.opened = undefined;
      },
    });
  }
}

function makeStores(db: Database, old: number, _new: number | null, tx: unknown): void {
  if (old < 1) makeFirstStores(db, tx as Transaction);
  if (old < 2) db.createObjectStore("photos");
}

function makeFirstStores(db: Database, tx: Transaction): void {
  const events = db.createObjectStore("events", { autoIncrement: true });
  events.createIndex("id", ["device", "n"], { unique: true });
  events.createIndex("job", "job");
  events.createIndex("kind", ["job", "kind"]);
  db.createObjectStore("phone");
  void tx.objectStore("phone").put(newPhone(), "self");
}

/** Reads only: a store that can no longer be written still opens. */
export async function contentsOf(db: Database): Promise<Contents> {
  const [phone, count] = await Promise.all([db.get("phone", "self"), db.count("events")]);
  return { phone: phone ?? newPhone(), count };
}

/** How many events of a device are stored, up to its number `last`. */
export function countOf(db: Database, device: string, last: number): Promise<number> {
  return db.countFromIndex("events", "id", IDBKeyRange.bound([device, 0], [device, last]));
}

/**
 * All of `work`, or nothing of it; resolves after the browser's "complete", never before.
 * `strict` asks the browser to have it on the disk by then.
 */
export async function inOneTransaction<T>(
  db: Database,
  work: (tx: Transaction) => Promise<T>,
): Promise<T> {
  const tx = db.transaction(STORES, "readwrite", { durability: "strict" });
  const ended = tx.done.then(
    () => undefined,
    (fault: unknown) => fault,
  );
  try {
    const result = await work(tx);
    const fault = await ended;
    if (fault) throw fault;
    return result;
  } catch (fault) {
    throw await reasonOf(tx, ended, fault);
  }
}

/** A full disk shows in the transaction's own error; its requests only say that they were aborted. */
async function reasonOf(
  tx: Transaction,
  ended: Promise<unknown>,
  fault: unknown,
): Promise<unknown> {
  try {
    tx.abort();
  } catch {
    // It had ended by itself.
  }
  await ended;
  return tx.error ?? fault;
}
