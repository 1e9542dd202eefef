// pydantic's compiled core is streamed and compiled while the interpreter itself still loads.
// Unpacking it from the archive would copy its 4.7 MB into Python's file system and compile it later.

/** The parts of the interpreter's module object that are used here. */
export interface Module {
  API: { restoreSnapshot(image: Uint8Array): unknown };
  HEAP8: Int8Array;
  FS: {
    mkdirTree(path: string): void;
    writeFile(path: string, bytes: Uint8Array): void;
  };
  preloadedWasm: Record<string, unknown>;
  addRunDependency(name: string): void;
  removeRunDependency(name: string): void;
  growMemory(bytes: number): void;
  loadWebAssemblyModule(
    module: WebAssembly.Module,
    flags: { loadAsync: true; nodelete: true },
    name: string,
    scope: object,
  ): Promise<unknown>;
}

/** What is to be done before Python starts; Python waits for it. */
export type Step = (module: Module) => Promise<void>;

interface Settings {
  preRun: ((module: Module) => void)[];
}

type Create = (settings: Settings) => Promise<never>;

/**
 * Add steps to the making of an interpreter. `failure` rejects when one of them fails: without it, the
 * start would wait for ever.
 */
export function withSteps(steps: Step[]) {
  let fail: (reason: unknown) => void;
  const failure = new Promise<never>((_, reject) => {
    fail = reject;
  });
  failure.catch(() => {});
  const before = steps.map((step, number) => (module: Module) => {
    const name = `step ${number}`;
    module.addRunDependency(name);
    step(module).then(() => module.removeRunDependency(name), fail);
  });
  const wrap = (create: Create) => (settings: Settings) =>
    create({ ...settings, preRun: [...settings.preRun, ...before] });
  return { wrap: wrap as (create: Create) => never, failure };
}

/** Start fetching a shared library, to stand at `place` before Python runs. */
export function preloading(url: URL, place: string): Step {
  const compiled = WebAssembly.compileStreaming(fetch(url));
  compiled.catch(() => {});
  return async (module) => {
    putStub(module, place);
    const flags = { loadAsync: true, nodelete: true } as const;
    const library = module.loadWebAssemblyModule(await compiled, flags, place, {});
    module.preloadedWasm[place] = await library;
  };
}

/** The import needs a file to find; what it loads is already there. */
function putStub(module: Module, place: string) {
  module.FS.mkdirTree(place.slice(0, place.lastIndexOf("/")));
  module.FS.writeFile(place, new Uint8Array(8));
}
