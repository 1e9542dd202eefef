// The calls that have no answer yet, in the order in which they were made.

export interface Waiting {
  id: number;
  name: string;
  text: string;
  /** How often a worker died over this call. */
  deaths: number;
  resolve(text: string): void;
  reject(reason: Error): void;
}

export class Queue {
  #entries: Waiting[] = [];

  add(entry: Waiting) {
    this.#entries.push(entry);
  }

  /** Put back what a dead worker left: it is next again. */
  putBack(entry: Waiting) {
    this.#entries.unshift(entry);
  }

  next(): Waiting | undefined {
    return this.#entries.shift();
  }

  rejectAll(reason: Error) {
    this.#rejectWhere(() => true, reason);
  }

  rejectNamed(name: string, reason: Error) {
    this.#rejectWhere((entry) => entry.name === name, reason);
  }

  #rejectWhere(matches: (entry: Waiting) => boolean, reason: Error) {
    const rejected = this.#entries.filter(matches);
    this.#entries = this.#entries.filter((entry) => !matches(entry));
    for (const entry of rejected) entry.reject(reason);
  }
}
