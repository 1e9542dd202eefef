// Makes the image of Python's memory, in a worker of its own: no job ever reaches it.
import { imageOf, startForImage } from "./interpreter";
import type { PythonFiles } from "./protocol";

declare const PYTHON_FILES: PythonFiles;

const SITE = new URL("../", import.meta.url);

async function make() {
  const image = imageOf(PYTHON_FILES, SITE);
  if (!(await image.isWanted())) return;
  const interpreter = await startForImage(PYTHON_FILES, SITE);
  await image.keep(interpreter.makeImage());
}

// An image may always be absent: why it could not be made is of no use to anybody.
make()
  .catch(() => {})
  .then(() => postMessage("over"));
