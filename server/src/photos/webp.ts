/** WebP as a RIFF of chunks (RFC 9649; the size of a lossy picture by RFC 6386, section 9.1). */
import { type Orientation, orientationIn, orientationOnly } from './orientation.ts';
import { type Broken, ENDS_EARLY, letters, NO_SIZE, type Picture, viewOf } from './picture.ts';

const HEAD = 12;
const HAS_EXIF = 0x08;
const HAS_XMP = 0x04;

const PAINTED = new Set(['VP8X', 'ICCP', 'ALPH', 'VP8 ', 'VP8L']);

export const isWebp = (bytes: Uint8Array): boolean =>
  letters(bytes, 0, 4) === 'RIFF' && letters(bytes, 8, HEAD) === 'WEBP';

export function readWebp(bytes: Uint8Array): Picture | Broken {
  const view = viewOf(bytes);
  const end = 8 + view.getUint32(4, true);
  if (end > bytes.length) return ENDS_EARLY;
  const kept: Uint8Array[] = [];
  let orientation: Orientation = 1;
  let size: Size | undefined;
  for (let at = HEAD; at + 8 <= end; ) {
    const name = letters(bytes, at, at + 4);
    const length = view.getUint32(at + 4, true);
    const content = bytes.subarray(at + 8, at + 8 + length);
    if (content.length < length) return ENDS_EARLY;
    if (name === 'ANIM') return { broken: 'is an animation, not a photograph' };
    if (name === 'EXIF') orientation = orientationIn(content);
    size = sizeIn(name, content) ?? size;
    if (PAINTED.has(name)) kept.push(chunk(name, content));
    at += 8 + length + (length % 2);
  }
  if (!size?.width || !size.height) return NO_SIZE;
  const upright = orientation === 1 ? [] : [chunk('EXIF', orientationOnly(orientation))];
  return {
    kind: 'webp',
    ...size,
    orientation,
    kept: riff([...kept.map((each) => told(each, orientation)), ...upright]),
  };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Of the picture itself; what a canvas around it may say is the same. */
function sizeIn(name: string, content: Uint8Array): Size | undefined {
  if (content.length < 10) return undefined;
  const view = viewOf(content);
  if (name === 'VP8 ') return { width: view.getUint16(6, true) & 0x3fff, height: view.getUint16(8, true) & 0x3fff };
  if (name !== 'VP8L') return undefined;
  const bits = view.getUint32(1, true);
  return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
}

/** The head of an extended file says which chunks follow. */
function told(each: Uint8Array, orientation: Orientation): Uint8Array {
  if (letters(each, 0, 4) !== 'VP8X') return each;
  const made = each.slice();
  made[8] = ((made[8] ?? 0) & ~(HAS_EXIF | HAS_XMP)) | (orientation === 1 ? 0 : HAS_EXIF);
  return made;
}

function chunk(name: string, content: Uint8Array): Uint8Array {
  const made = new Uint8Array(8 + content.length + (content.length % 2));
  made.set([...name].map((letter) => letter.charCodeAt(0)));
  viewOf(made).setUint32(4, content.length, true);
  made.set(content, 8);
  return made;
}

function riff(chunks: readonly Uint8Array[]): readonly Uint8Array[] {
  const head = new Uint8Array(HEAD);
  head.set([...'RIFF....WEBP'].map((letter) => letter.charCodeAt(0)));
  viewOf(head).setUint32(
    4,
    chunks.reduce((sum, each) => sum + each.length, 4),
    true,
  );
  return [head, ...chunks];
}
