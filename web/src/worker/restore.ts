// Putting the image of an earlier start in the place of fresh memory.
import type { Module, Step } from "./preload";

const HEADER_WORD = 1; // where the image says how long its heading is; the memory follows it

function memoryBytes(image: Uint8Array): number {
  const words = new Uint32Array(image.buffer, image.byteOffset, image.byteLength >> 2);
  return image.length - (words[HEADER_WORD] ?? 0);
}

/** The interpreter writes the image into its memory as it is, so that has to be large enough. */
function growTo(module: Module, bytes: number) {
  if (bytes > module.HEAP8.length) module.growMemory(bytes);
}

/**
 * A step before Python starts: wait for the image, which is read while the interpreter is compiled.
 * Handed over here and not as an option, so that nothing keeps its bytes afterwards.
 */
export function restoring(image: Promise<Uint8Array>): Step {
  image.catch(() => {}); // told by the step, which may come later
  return async (module) => {
    const bytes = await image;
    const restore = module.API.restoreSnapshot;
    module.API.restoreSnapshot = () => {
      growTo(module, memoryBytes(bytes));
      module.API.restoreSnapshot = restore;
      return restore(bytes);
    };
  };
}

/** What Pyodide is told to make it restore; the bytes come by the step above. */
export const PLACE_HOLDER = new Uint8Array(8);
