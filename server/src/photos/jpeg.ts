/** JPEG as a chain of segments (ITU-T T.81 annex B; Exif in APP1, a colour profile in APP2). */
import { exifOrientation, type Orientation, orientationIn } from './orientation.ts';
import { type Broken, ENDS_EARLY, letters, NO_SIZE, type Picture, viewOf } from './picture.ts';

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const APP0 = 0xe0;
const APP1 = 0xe1;
const APP2 = 0xe2;
const APP14 = 0xee;

export const isJpeg = (bytes: Uint8Array): boolean => bytes[0] === 0xff && bytes[1] === SOI && bytes[2] === 0xff;

export function readJpeg(bytes: Uint8Array): Picture | Broken {
  const view = viewOf(bytes);
  const kept: Uint8Array[] = [];
  let orientation: Orientation = 1;
  let size: { readonly width: number; readonly height: number } | undefined;
  for (let at = 2; ; ) {
    // Any number of 0xff may stand before a marker.
    while (bytes[at] === 0xff && bytes[at + 1] === 0xff) at += 1;
    const marker = bytes[at + 1];
    if (marker === undefined) return ENDS_EARLY;
    if (bytes[at] !== 0xff) return { broken: 'is damaged: a part of it does not begin where the part before it ends' };
    if (marker === EOI) break;
    if (at + 4 > bytes.length) return ENDS_EARLY;
    const end = at + 2 + view.getUint16(at + 2);
    if (end > bytes.length) return ENDS_EARLY;
    const content = bytes.subarray(at + 4, end);
    if (isFrame(marker) && content.length >= 5)
      size = { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    if (marker === APP1 && orientation === 1 && letters(content, 0, 4) === 'Exif') orientation = orientationIn(content);
    const next = marker === SOS ? scanEnd(bytes, end) : end;
    if (next === undefined) return ENDS_EARLY;
    if (isPainted(marker, content)) kept.push(bytes.subarray(at, next));
    at = next;
  }
  if (!size?.width || !size.height) return NO_SIZE;
  const exif = exifOrientation(orientation);
  const upright = orientation === 1 ? [] : [Uint8Array.of(0xff, APP1, 0, exif.length + 2), exif];
  return {
    kind: 'jpeg',
    ...size,
    orientation,
    kept: [Uint8Array.of(0xff, SOI), ...upright, ...kept, Uint8Array.of(0xff, EOI)],
  };
}

/** SOF0 to SOF15 but for the tables among them. */
const isFrame = (marker: number): boolean => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);

/** Of the application's segments those that say how colours are meant; comments never. */
function isPainted(marker: number, content: Uint8Array): boolean {
  if (marker < APP0) return true;
  if (marker === APP2) return letters(content, 0, 11) === 'ICC_PROFILE';
  return marker === APP14 && letters(content, 0, 5) === 'Adobe';
}

/** Where the next marker stands behind a scan; 0xff 0x00 is a byte of it, 0xff 0xd0 to 0xd7 restarts it. */
function scanEnd(bytes: Uint8Array, start: number): number | undefined {
  for (let at = bytes.indexOf(0xff, start); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const marker = bytes[at + 1];
    if (marker === undefined) return undefined;
    if (marker !== 0 && marker !== 0xff && !(marker >= 0xd0 && marker <= 0xd7)) return at;
  }
  return undefined;
}
