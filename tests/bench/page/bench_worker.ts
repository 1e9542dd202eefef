// The browser's Python as the site starts it, for benchmarks: they may run any text in it.
import {
  type Interpreter,
  imageOf,
  startForImage,
  startInterpreter,
} from "../../../web/src/worker/interpreter";
import type { PythonFiles, Way } from "../../../web/src/worker/protocol";

declare const PYTHON_FILES: PythonFiles;

export type BenchQuestion =
  | { ask: "time"; name: string; text: string; times: number }
  | { ask: "call"; name: string; text: string }
  | { ask: "run"; text: string }
  | { ask: "keep image" }
  | { ask: "heap" };

const SITE = new URL("../", import.meta.url);
const begin = (way: string) =>
  way === "for an image"
    ? startForImage(PYTHON_FILES, SITE)
    : startInterpreter(way as Way, PYTHON_FILES, SITE, () => {});
const started = begin(self.name || "bundle");

/** Milliseconds that each of a number of calls took inside the worker. */
function time(python: Interpreter, name: string, text: string, times: number): number[] {
  return Array.from({ length: times }, () => {
    const start = performance.now();
    python.call(name, text);
    return performance.now() - start;
  });
}

function answer(python: Interpreter, question: BenchQuestion): unknown {
  if (question.ask === "keep image") return imageOf(PYTHON_FILES, SITE).keep(python.makeImage());
  if (question.ask === "time") return time(python, question.name, question.text, question.times);
  if (question.ask === "call") return python.call(question.name, question.text);
  if (question.ask === "run") return python.pyodide.runPython(question.text);
  return python.heapBytes;
}

addEventListener("message", async (event: MessageEvent<BenchQuestion>) => {
  try {
    postMessage({ ok: await answer(await started, event.data) });
  } catch (error) {
    postMessage({ error: String(error) });
  }
});
