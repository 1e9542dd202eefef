// pydantic's compiled core is streamed and compiled while the interpreter itself still loads.
// Unpacking it from the archive would copy its 4.7 MB into Python's file system and compile it later.

/** The parts of the interpreter's module object that are used here. */
interface Module {
  FS: {
    mkdirTree(path: string): void;
    writeFile(path: string, bytes: Uint8Array): void;
  };
  preloadedWasm: Record<string, unknown>;
  addRunDependency(name: string): void;
  removeRunDependency(name: string): void;
  loadWebAssemblyModule(
    module: WebAssembly.Module,
    flags: { loadAsync: true; nodelete: true },
    name: string,
    scope: object,
  ): Promise<unknown>;
}

interface Settings {
  preRun: ((module: Module) => void)[];
}

type Create = (settings: Settings) => Promise<never>;

/**
 * Start fetching a shared library, to stand at `place` before Python runs.
 * `failure` rejects when it cannot be loaded: without it, the start would wait for ever.
 */
export function preloading(url: URL, place: string) {
  const compiled = WebAssembly.compileStreaming(fetch(url));
  let fail: (reason: unknown) => void;
  const failure = new Promise<never>((_, reject) => {
    fail = reject;
  });
  failure.catch(() => {});
  compiled.catch((reason) => fail(reason));
  const step = (module: Module) => {
    putStub(module, place);
    loadInto(module, compiled, place).catch((reason) => fail(reason));
  };
  const wrap = (create: Create) => (settings: Settings) =>
    create({ ...settings, preRun: [...settings.preRun, step] });
  return { wrap: wrap as (create: Create) => never, failure };
}

/** The import needs a file to find; what it loads is already there. */
function putStub(module: Module, place: string) {
  module.FS.mkdirTree(place.slice(0, place.lastIndexOf("/")));
  module.FS.writeFile(place, new Uint8Array(8));
}

async function loadInto(module: Module, compiled: Promise<WebAssembly.Module>, place: string) {
  module.addRunDependency(place);
  const flags = { loadAsync: true, nodelete: true } as const;
  module.preloadedWasm[place] = await module.loadWebAssemblyModule(
    await compiled,
    flags,
    place,
    {},
  );
  module.removeRunDependency(place);
}
