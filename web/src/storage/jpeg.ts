export interface Size {
  readonly width: number;
  readonly height: number;
}

const MARK = 0xff;
/** Among the frame headers' numbers stand three that begin none: tables, an extension, conditioning. */
const NO_FRAME = [0xc4, 0xc8, 0xcc];

const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && !NO_FRAME.includes(marker);

/** Pixels as the frame header of a JPEG states them (ITU-T T.81, B.2.2), or undefined where it is none. */
export function jpegSize(bytes: Uint8Array): Size | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes[0] !== MARK || bytes[1] !== 0xd8) return undefined;
  for (let at = 2; at + 9 < bytes.length; ) {
    const marker = view.getUint8(at + 1);
    if (bytes[at] !== MARK) return undefined;
    if (isFrame(marker)) return sizeOf(view.getUint16(at + 7), view.getUint16(at + 5));
    at += marker === MARK ? 1 : 2 + view.getUint16(at + 2);
  }
  return undefined;
}

const sizeOf = (width: number, height: number): Size | undefined =>
  width > 0 && height > 0 ? { width, height } : undefined;
