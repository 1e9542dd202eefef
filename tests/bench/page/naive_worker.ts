// The start that needs no build: stock interpreter and library, packages installed on the spot.
import type { PythonFiles } from "../../../web/src/worker/protocol";

declare const PYTHON_FILES: PythonFiles;

const SITE = new URL("../", import.meta.url);
const urlOf = (path: string) => new URL(path, SITE).href;

async function start() {
  const module = await import(urlOf(`${PYTHON_FILES.interpreter}pyodide.mjs`));
  const pyodide = await module.loadPyodide({
    lockFileContents: PYTHON_FILES.lock,
    packageBaseUrl: SITE.href,
  });
  await pyodide.loadPackage(PYTHON_FILES.installers.map(urlOf));
  const micropip = pyodide.pyimport("micropip");
  await micropip.install(pyodide.toPy(PYTHON_FILES.wheels.map(urlOf)));
  return pyodide;
}

const started = start().then((pyodide) => ({
  service: pyodide.pyimport("footwell.service"),
  pyodide,
}));

addEventListener("message", async (event: MessageEvent<{ name: string; text: string }>) => {
  const { service, pyodide } = await started;
  const answer = service.call(event.data.name, event.data.text);
  postMessage({ ok: answer, heapBytes: pyodide._module.HEAP8.length });
});
