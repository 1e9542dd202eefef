/** A picture as it is kept: small, upright, a JPEG of our own making with nothing else in it. */

import { type Bytes, jpegSize, LONGEST_SIDE, MOST_BYTES, type Size } from "../../storage";
import { words } from "./words";

/** What is taken in, before it is made small. */
const LARGEST_FILE = 20_000_000;
const MOST_PIXELS = 40_000_000;

const QUALITIES = [0.82, 0.7, 0.6, 0.5, 0.4];
/** A picture that is too large at the least quality is drawn smaller by this much. */
const SMALLER = 0.75;
const SHORTEST_SIDE = 200;

/** Why a picture was not taken over; the message is a sentence for the screen. */
export class PhotoProblem extends Error {}

export interface Small extends Size {
  readonly bytes: Bytes;
}

/** Gives the JPEG of the picture in this size and quality (0 to 1). */
export type Encode = (size: Size, quality: number) => Promise<Bytes>;

/** Rejects with a PhotoProblem. */
export async function shrunk(file: Blob): Promise<Small> {
  if (file.size > LARGEST_FILE) throw new PhotoProblem(words.tooLarge);
  const bytes = await file.arrayBuffer().catch(() => {
    throw new PhotoProblem(words.unreadable);
  });
  const stated = statedSize(new Uint8Array(bytes));
  refuseMany(stated);
  const picture = await decoded(new Blob([bytes], { type: stated.type }));
  try {
    refuseMany(picture);
    return await fitted(picture, drawing(picture));
  } finally {
    picture.close();
  }
}

function refuseMany({ width, height }: Size): void {
  if (width * height > MOST_PIXELS) throw new PhotoProblem(words.tooManyPixels);
}

/**
 * Kind and size as the file states them, for a small file may unfold to more than a phone can hold. The
 * other two kinds are measured when they are decoded. Anything else, a drawing that may hold a script
 * above all, never reaches a decoder.
 */
export function statedSize(bytes: Uint8Array): Size & { type: string } {
  const jpeg = jpegSize(bytes);
  if (jpeg) return { ...jpeg, type: "image/jpeg" };
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const begin = String.fromCharCode(...bytes.subarray(0, 12));
  if (begin.startsWith("\x89PNG\r\n\x1a\n") && bytes.length > 24)
    return { type: "image/png", width: view.getUint32(16), height: view.getUint32(20) };
  if (/^RIFF.{4}WEBP/s.test(begin)) return { type: "image/webp", width: 0, height: 0 };
  if (/^.{4}ftyp(hei|mif|avi)/s.test(begin)) return { type: "image/heic", width: 0, height: 0 };
  throw new PhotoProblem(words.notPicture);
}

async function decoded(picture: Blob): Promise<ImageBitmap> {
  if (!("createImageBitmap" in globalThis)) throw new PhotoProblem(words.unable);
  try {
    return await createImageBitmap(picture, { imageOrientation: "from-image" });
  } catch {
    throw new PhotoProblem(words.unreadable);
  }
}

/** The best quality that fits, in the largest size that has one. */
export async function fitted(picture: Size, encode: Encode): Promise<Small> {
  for (let side = LONGEST_SIDE; side >= SHORTEST_SIDE; side *= SMALLER) {
    const size = within(picture, side);
    for (const quality of QUALITIES) {
      const bytes = await encode(size, quality);
      if (bytes.length <= MOST_BYTES) return { ...size, bytes };
    }
  }
  throw new PhotoProblem(words.unable);
}

/** The size with its longer side shortened to this, never lengthened. */
function within({ width, height }: Size, side: number): Size {
  const share = Math.min(1, side / Math.max(width, height));
  return {
    width: Math.max(1, Math.round(width * share)),
    height: Math.max(1, Math.round(height * share)),
  };
}

function drawing(picture: ImageBitmap): Encode {
  const canvas = document.createElement("canvas");
  return async (size, quality) => {
    if (canvas.width !== size.width || canvas.height !== size.height) draw(picture, canvas, size);
    const blob = await new Promise<Blob | null>((done) =>
      canvas.toBlob(done, "image/jpeg", quality),
    );
    const bytes = new Uint8Array((await blob?.arrayBuffer()) ?? new ArrayBuffer(0));
    if (!jpegSize(bytes)) throw new PhotoProblem(words.unable);
    return bytes;
  };
}

function draw(picture: ImageBitmap, canvas: HTMLCanvasElement, { width, height }: Size): void {
  canvas.width = width;
  canvas.height = height;
  const pen = canvas.getContext("2d", { alpha: false });
  if (!pen) throw new PhotoProblem(words.unable);
  pen.fillStyle = "white";
  pen.fillRect(0, 0, width, height);
  pen.imageSmoothingQuality = "high";
  pen.drawImage(picture, 0, 0, width, height);
}
