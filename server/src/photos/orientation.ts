/** Which way up a camera held its picture: the one thing of an Exif block (TIFF 6.0 inside) that a copy keeps. */

/** 1 upright, 3 upside down, 6 and 8 on its side, the others mirrored (Exif 2.32, tag 0x0112). */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

const TAG = 0x0112;
const SHORT = 3;
const EXIF = [0x45, 0x78, 0x69, 0x66, 0, 0];

/** Of a TIFF block, with or without `Exif` and two zeros in front; upright where it says nothing that can be read. */
export function orientationIn(block: Uint8Array): Orientation {
  const tiff = EXIF.every((byte, index) => block[index] === byte) ? block.subarray(EXIF.length) : block;
  if (tiff.length < 8) return 1;
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength);
  const little = view.getUint16(0) === 0x4949;
  const at = view.getUint32(4, little);
  if (at + 2 > tiff.length) return 1;
  const count = view.getUint16(at, little);
  for (let entry = at + 2; entry < at + 2 + 12 * count && entry + 12 <= tiff.length; entry += 12) {
    if (view.getUint16(entry, little) !== TAG || view.getUint16(entry + 2, little) !== SHORT) continue;
    const value = view.getUint16(entry + 8, little);
    return isOrientation(value) ? value : 1;
  }
  return 1;
}

const isOrientation = (value: number): value is Orientation => value >= 1 && value <= 8;

/** A TIFF block that says which way up and nothing else. */
export const orientationOnly = (orientation: Orientation): Uint8Array =>
  // Byte order, 42, the first directory at 8; one entry: the tag, a short, one of them, its value; no directory behind it.
  Uint8Array.of(
    ...[0x4d, 0x4d, 0, 42, 0, 0, 0, 8],
    ...[0, 1, 1, 0x12, 0, SHORT, 0, 0, 0, 1, 0, orientation, 0, 0],
    ...[0, 0, 0, 0],
  );

/** The same as a JPEG has it. */
export const exifOrientation = (orientation: Orientation): Uint8Array =>
  Uint8Array.of(...EXIF, ...orientationOnly(orientation));

/** True where width and height change places. */
export const liesOnItsSide = (orientation: Orientation): boolean => orientation >= 5;
