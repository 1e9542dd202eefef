/** A screen without a browser: what it says, and its keys. As much of the document as is drawn with, no more. */
import type { ComponentChild } from "preact";

const begin = globalThis.setTimeout;
const LATER_MS = 30_000;
/** What a page tidies up a minute later keeps no test waiting. */
const untied = (run: () => void, ms = 0) => {
  const timer = begin(run, ms);
  return ms >= LATER_MS ? timer.unref() : timer;
};
Object.assign(globalThis, { setTimeout: untied });

class FakeNode {
  parentNode: FakeElement | null = null;
  constructor(readonly nodeType: number) {}

  get nextSibling(): FakeNode | null {
    const around = this.parentNode?.childNodes ?? [];
    return around[around.indexOf(this) + 1] ?? null;
  }

  get textContent(): string {
    return "";
  }

  remove() {
    const around = this.parentNode?.childNodes;
    around?.splice(around.indexOf(this), 1);
    this.parentNode = null;
  }
}

class FakeText extends FakeNode {
  constructor(public data: string) {
    super(3);
  }

  override get textContent() {
    return this.data;
  }
}

type Heard = (event: object) => unknown;

/** Names of the files that were handed over. */
export const handed: string[] = [];

export class FakeElement extends FakeNode {
  readonly childNodes: FakeNode[] = [];
  readonly attributes = new Map<string, string>();
  readonly style = {};
  readonly heard = new Map<string, Heard>();

  constructor(readonly localName: string) {
    super(1);
  }

  get firstChild() {
    return this.childNodes[0] ?? null;
  }

  get children() {
    return this.childNodes.filter((child) => child instanceof FakeElement);
  }

  override get textContent(): string {
    return this.childNodes.map((child) => child.textContent).join("");
  }

  insertBefore(child: FakeNode, next: FakeNode | null) {
    child.remove();
    const at = next ? this.childNodes.indexOf(next) : this.childNodes.length;
    this.childNodes.splice(at, 0, child);
    child.parentNode = this;
  }

  setAttribute(name: string, value: unknown) {
    this.attributes.set(name, String(value));
  }

  removeAttribute(name: string) {
    this.attributes.delete(name);
  }

  addEventListener(name: string, heard: Heard) {
    this.heard.set(name, heard);
  }

  removeEventListener(name: string) {
    this.heard.delete(name);
  }

  querySelector() {
    return null;
  }

  scrollTo() {}
  scrollIntoView() {}

  /** Of the elements that no finger presses only an anchor is clicked: it hands a file over. */
  click() {
    handed.push(String((this as { download?: string }).download));
  }

  /** Everything below, itself first. */
  *all(): Generator<FakeElement> {
    yield this;
    for (const child of this.children) yield* child.all();
  }
}

/** What the page finds around it. Anything given stands in its place. */
export function setUp(given: Record<string, unknown> = {}) {
  const around: Record<string, unknown> = {
    document: {
      createElementNS: (_: string, name: string) => new FakeElement(name),
      createElement: (name: string) => new FakeElement(name),
      createTextNode: (text: string) => new FakeText(text),
      querySelector: () => null,
      addEventListener: () => {},
      removeEventListener: () => {},
    },
    ResizeObserver: class {
      observe() {}
      disconnect() {}
    },
    addEventListener: () => {},
    removeEventListener: () => {},
    history: { state: null, pushState: () => {}, replaceState: () => {}, back: () => {} },
    location: { origin: "https://phone.test", pathname: "/app/", search: "", hash: "" },
    navigator: { locks: { request: () => {} } },
    localStorage: { getItem: () => null, setItem: () => {}, removeItem: () => {} },
    ...given,
  };
  for (const [name, value] of Object.entries(around))
    Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
}

// Some modules look around when they are loaded.
setUp();

/** A screen that is drawn. */
export class Stage {
  readonly root = new FakeElement("body");

  /** `render` is preact's. */
  constructor(
    readonly render: (child: ComponentChild, root: Element) => void,
    screen: ComponentChild,
  ) {
    render(screen, this.root as unknown as Element);
  }

  /** Sentences and keys, each paragraph a line. */
  get lines(): string[] {
    const told = ["h1", "h2", "p", "li", "button", "textarea", "legend"];
    return [...this.root.all()]
      .filter(({ localName }) => told.includes(localName))
      .map((it) => it.attributes.get("value") ?? it.textContent)
      .filter(Boolean);
  }

  /** Waits for a line in which these words stand, and answers it. */
  async says(words: string | RegExp): Promise<string> {
    const fits = (line: string) =>
      typeof words === "string" ? line.includes(words) : words.test(line);
    return this.until(() => this.lines.find(fits), String(words));
  }

  key(name: string): FakeElement | undefined {
    return [...this.root.all()].find(
      (it) => it.localName === "button" && it.textContent.includes(name),
    );
  }

  /** Presses a key as soon as it takes presses. */
  async press(name: string) {
    const open = () => {
      const key = this.key(name);
      return key && !key.attributes.has("disabled") ? key : undefined;
    };
    const key = await this.until(open, name);
    await key.heard.get("click")?.call(key, { type: "click" });
  }

  /** Chooses a file by the key of this name. */
  async choose(name: string, file: File) {
    const isInput = (it: FakeElement) =>
      it.localName === "input" && it.attributes.get("aria-label") === name;
    const input = await this.until(() => [...this.root.all()].find(isInput), name);
    const currentTarget = Object.assign(input, { files: [file] });
    await input.heard.get("change")?.call(input, { type: "change", currentTarget });
  }

  leave() {
    this.render(null, this.root as unknown as Element);
  }

  private async until<T>(look: () => T | undefined, what: string): Promise<T> {
    for (let turn = 0; turn < 6_000; turn++) {
      const found = look();
      if (found !== undefined) return found;
      await new Promise((next) => setTimeout(next, 5));
    }
    throw new Error(`never came: ${what}; there is ${this.lines.join(" | ")}`);
  }
}
