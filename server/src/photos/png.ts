/** PNG as a row of chunks (ISO/IEC 15948; `eXIf` by the PNG specification, third edition). */
import { type Orientation, orientationIn, orientationOnly } from './orientation.ts';
import { type Broken, ENDS_EARLY, letters, NO_SIZE, type Picture, viewOf } from './picture.ts';

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** What a picture needs to be painted in its colours. */
const PAINTED = new Set([
  'IHDR',
  'PLTE',
  'IDAT',
  'IEND',
  'tRNS',
  'gAMA',
  'cHRM',
  'sRGB',
  'iCCP',
  'sBIT',
  'cICP',
  'pHYs',
]);

export const isPng = (bytes: Uint8Array): boolean => SIGNATURE.every((byte, index) => bytes[index] === byte);

export function readPng(bytes: Uint8Array): Picture | Broken {
  const view = viewOf(bytes);
  const kept: Uint8Array[] = [Uint8Array.from(SIGNATURE)];
  let orientation: Orientation = 1;
  let size: { readonly width: number; readonly height: number } | undefined;
  for (let at = SIGNATURE.length, name = ''; name !== 'IEND'; ) {
    if (at + 12 > bytes.length) return ENDS_EARLY;
    const end = at + 12 + view.getUint32(at);
    if (end > bytes.length) return ENDS_EARLY;
    name = letters(bytes, at + 4, at + 8);
    const content = bytes.subarray(at + 8, end - 4);
    if (name === 'IHDR' && content.length >= 8)
      size = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) };
    if (name === 'eXIf') orientation = orientationIn(content);
    if (PAINTED.has(name)) kept.push(bytes.subarray(at, end));
    at = end;
  }
  if (!size?.width || !size.height) return NO_SIZE;
  const [signature, header, ...others] = kept;
  if (!signature || !header) return NO_SIZE;
  const upright = orientation === 1 ? [] : [chunk('eXIf', orientationOnly(orientation))];
  return { kind: 'png', ...size, orientation, kept: [signature, header, ...upright, ...others] };
}

function chunk(name: string, content: Uint8Array): Uint8Array {
  const made = new Uint8Array(12 + content.length);
  const view = viewOf(made);
  view.setUint32(0, content.length);
  made.set(
    [...name].map((letter) => letter.charCodeAt(0)),
    4,
  );
  made.set(content, 8);
  view.setUint32(8 + content.length, crc32(made.subarray(4, 8 + content.length)));
  return made;
}

/** ISO 3309, as annex D of the PNG specification has it. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
