// Python in the worker: three ways to start it, the same interpreter afterwards.
import type { PyodideAPI } from "pyodide";
import { KeptImage } from "../storage/image";
import { preloading, type Step, withSteps } from "./preload";
import type { PythonFiles, Starting, Way } from "./protocol";
import { PLACE_HOLDER, restoring } from "./restore";

type LoadOptions = NonNullable<Parameters<typeof import("pyodide").loadPyodide>[0]>;
export type Tell = (telling: Starting) => void;

// With plugins on, the first model would read the metadata of every installed package.
const ENVIRONMENT = { PYDANTIC_DISABLE_PLUGINS: "1" };

/** A call that goes through pydantic's compiled core and carries no data of anybody. */
const WARM_UP = ["ping", "{}"] as const;

/** What Pyodide can do and does not yet promise. */
interface Snapshots {
  makeMemorySnapshot(): Uint8Array<ArrayBuffer>;
}

export class Interpreter {
  readonly #pyodide: PyodideAPI;
  readonly #service: { call(name: string, text: string): string };

  constructor(pyodide: PyodideAPI) {
    this.#pyodide = pyodide;
    this.#service = pyodide.pyimport("footwell.service");
  }

  call(name: string, text: string): string {
    return this.#service.call(name, text);
  }

  /** Have a function called again and again while a call is worked on. Never before an image is made. */
  onWork(hear: () => void) {
    this.#pyodide.pyimport("footwell.pulse").listen(hear);
  }

  /** Size of Python's memory in bytes: the WebAssembly heap, which only grows. */
  get heapBytes(): number {
    const { _module } = this.#pyodide as unknown as { _module: { HEAP8: Int8Array } };
    return _module.HEAP8.length;
  }

  /** The whole of Python's memory, to be restored by a later start. */
  makeImage(): Uint8Array<ArrayBuffer> {
    const { makeMemorySnapshot } = this.#pyodide as unknown as Snapshots;
    return makeMemorySnapshot();
  }

  get pyodide(): PyodideAPI {
    return this.#pyodide;
  }
}

export async function startInterpreter(
  way: Way,
  files: PythonFiles,
  site: URL,
  tell: Tell,
): Promise<Interpreter> {
  hideImportScripts();
  const failure = failureOfWasm();
  return Promise.race([startBy(way, files, site, tell), failure]);
}

/** Pyodide prints that its WebAssembly could not be had, and then waits for ever: this one rejects. */
function failureOfWasm(): Promise<never> {
  const instantiate = WebAssembly.instantiateStreaming;
  return new Promise((_, reject) => {
    const instantiateStreaming: typeof instantiate = (...rest) => {
      const made = instantiate(...rest);
      made.catch(reject);
      return made;
    };
    Object.assign(WebAssembly, { instantiateStreaming });
  });
}

async function startBy(way: Way, files: PythonFiles, site: URL, tell: Tell) {
  if (way === "wheels") return startFromWheels(files, site, tell);
  const images = imageOf(files, site);
  const kept = way === "image" ? await images.begin().catch(() => undefined) : undefined;
  if (kept) return startFromImage(files, site, images, kept);
  if (way === "image") tell({ tell: "no image" });
  tell({ tell: "loading", message: "Starting Python" });
  return startFromBundle(files, site);
}

/** Where the image of these files is kept for this browser; another engine could not run it. */
export const imageOf = ({ interpreter, bundle, coreWasm }: PythonFiles, site: URL) =>
  new KeptImage([interpreter, bundle, coreWasm, navigator.userAgent], new URL("image/", site));

/** An interpreter to be used for nothing but an image: it answers a call that asks for no data. */
export async function startForImage(files: PythonFiles, site: URL): Promise<Interpreter> {
  hideImportScripts();
  const interpreter = await startFromBundle(files, site, { _makeSnapshot: true });
  interpreter.call(...WARM_UP);
  return interpreter;
}

async function startFromImage(files: PythonFiles, site: URL, images: KeptImage, kept: Response) {
  const steps = [restoring(images.bytesOf(kept))];
  const interpreter = await startFromBundle(files, site, { _loadSnapshot: PLACE_HOLDER }, steps);
  interpreter.pyodide.pyimport("footwell_boot").restored();
  interpreter.call(...WARM_UP);
  await images.worked();
  return interpreter;
}

async function startFromBundle(
  files: PythonFiles,
  site: URL,
  more: LoadOptions = {},
  steps: Step[] = [],
) {
  const core = preloading(new URL(files.coreWasm, site), files.corePlace);
  const { wrap, failure } = withSteps([core, ...steps]);
  const [load, create] = await Promise.all([
    importLoader(files, site),
    importModule(new URL(`${files.interpreter}pyodide.asm.mjs`, site)),
  ]);
  const loaded = load({
    ...commonOptions(files, site),
    ...more,
    stdLibURL: new URL(files.bundle, site).href,
    createPyodideModule: wrap(create.default),
  });
  const pyodide = await Promise.race([loaded, failure]);
  pyodide.pyimport("footwell_boot");
  return new Interpreter(pyodide);
}

async function startFromWheels(files: PythonFiles, site: URL, tell: Tell) {
  tell({ tell: "loading", message: "Starting Python from its parts" });
  const load = await importLoader(files, site);
  const pyodide = await load(commonOptions(files, site));
  tell({ tell: "loading", message: "Installing the core" });
  const urls = (paths: string[]) => paths.map((path) => new URL(path, site).href);
  await pyodide.loadPackage(urls(files.installers));
  const micropip = pyodide.pyimport("micropip");
  // Without this a name that is not here would be looked for on a public index.
  micropip.set_index_urls(pyodide.toPy([]));
  await micropip.install(pyodide.toPy(urls(files.wheels)));
  return new Interpreter(pyodide);
}

function commonOptions(files: PythonFiles, site: URL): LoadOptions {
  return {
    indexURL: new URL(files.interpreter, site).href,
    packageBaseUrl: site.href,
    lockFileContents: files.lock as never,
    env: ENVIRONMENT,
  };
}

async function importLoader(files: PythonFiles, site: URL) {
  const module = await importModule(new URL(`${files.interpreter}pyodide.mjs`, site));
  return module.loadPyodide as typeof import("pyodide").loadPyodide;
}

/**
 * In a module worker this function only throws. Pyodide calls it to find out; the page's policy would
 * count that as a breach.
 */
function hideImportScripts() {
  Object.defineProperty(globalThis, "importScripts", { value: undefined, configurable: true });
}

/** Import a file of the site whose name only the build knows. */
// biome-ignore lint/suspicious/noExplicitAny: the two modules are typed where they are used
const importModule = (url: URL): Promise<any> => import(url.href);
