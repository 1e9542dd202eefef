// The worker that hosts Python. It answers one question after the other.
import { type Interpreter, startInterpreter } from "./interpreter";
import type { PythonFiles, Question, Telling, Way } from "./protocol";

declare const PYTHON_FILES: PythonFiles;

const SITE = new URL("../", import.meta.url);
const tell = (telling: Telling) => postMessage(telling);

/** The page learns of this worker's death by getting the lock that the worker holds while it lives. */
function holdLock(name: string) {
  navigator.locks.request(name, () => {
    tell({ tell: "alive" });
    return new Promise(() => {});
  });
}

function answer(interpreter: Interpreter, question: Question): string {
  if (question.ask === "memory") return String(interpreter.heapBytes);
  return interpreter.call(question.name, question.text);
}

/** An exception of Python leaves the interpreter sound; any other error does not. */
const isPythonError = (error: unknown) => error instanceof Error && error.name === "PythonError";

function respond(interpreter: Interpreter, question: Question) {
  try {
    tell({ tell: "answer", id: question.id, text: answer(interpreter, question) });
  } catch (error) {
    if (isPythonError(error)) {
      tell({ tell: "answer", id: question.id, text: unexpected(error as Error) });
    } else {
      tell({ tell: "dying", reason: String(error) });
      close();
    }
  }
}

function unexpected(error: Error): string {
  const sentence = "The core met an error it does not know. What you entered is kept.";
  const details = error.message.trim().split("\n");
  return JSON.stringify({ error: { code: "core_failed", sentence, details } });
}

const WORD_EVERY_MS = 1_000;

/** Says at most once a second that a call is being worked on: a large circuit takes a slow phone long. */
function tellWork() {
  let last = 0;
  return () => {
    const now = performance.now();
    if (now - last < WORD_EVERY_MS) return;
    last = now;
    tell({ tell: "working" });
  };
}

async function main() {
  const [way, lock] = self.name.split(" ");
  holdLock(lock ?? "");
  try {
    const interpreter = await startInterpreter(way as Way, PYTHON_FILES, SITE, tell);
    interpreter.onWork(tellWork());
    addEventListener("message", (event: MessageEvent<Question>) =>
      respond(interpreter, event.data),
    );
    tell({ tell: "ready" });
  } catch (error) {
    tell({ tell: "failed", reason: String(error) });
  }
}

main();
