// Python in the worker: two ways to start it, the same interpreter afterwards.
import type { PyodideAPI } from "pyodide";
import { preloading } from "./preload";
import type { PythonFiles, Way } from "./protocol";

type LoadOptions = NonNullable<Parameters<typeof import("pyodide").loadPyodide>[0]>;
export type Progress = (message: string) => void;

// With plugins on, the first model would read the metadata of every installed package.
const ENVIRONMENT = { PYDANTIC_DISABLE_PLUGINS: "1" };

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

  /** Size of Python's memory in bytes: the WebAssembly heap, which only grows. */
  get heapBytes(): number {
    const { _module } = this.#pyodide as unknown as { _module: { HEAP8: Int8Array } };
    return _module.HEAP8.length;
  }

  get pyodide(): PyodideAPI {
    return this.#pyodide;
  }
}

export function startInterpreter(
  way: Way,
  files: PythonFiles,
  site: URL,
  progress: Progress,
): Promise<Interpreter> {
  hideImportScripts();
  const failure = failureOfWasm();
  const started =
    way === "bundle"
      ? startFromBundle(files, site, progress)
      : startFromWheels(files, site, progress);
  return Promise.race([started, failure]);
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

async function startFromBundle(files: PythonFiles, site: URL, progress: Progress) {
  progress("Starting Python");
  const core = preloading(new URL(files.coreWasm, site), files.corePlace);
  const [load, create] = await Promise.all([
    importLoader(files, site),
    importModule(new URL(`${files.interpreter}pyodide.asm.mjs`, site)),
  ]);
  const loaded = load({
    ...commonOptions(files, site),
    stdLibURL: new URL(files.bundle, site).href,
    createPyodideModule: core.wrap(create.default),
  });
  const pyodide = await Promise.race([loaded, core.failure]);
  progress("Loading the core");
  pyodide.pyimport("footwell_boot");
  return new Interpreter(pyodide);
}

async function startFromWheels(files: PythonFiles, site: URL, progress: Progress) {
  progress("Starting Python from its parts");
  const load = await importLoader(files, site);
  const pyodide = await load(commonOptions(files, site));
  progress("Installing the core");
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
