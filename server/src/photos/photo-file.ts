/** A photograph as its file tells: what it is, and the copy of it that may leave the shop. */
import { isJpeg, readJpeg } from './jpeg.ts';
import { liesOnItsSide } from './orientation.ts';
import type { Broken, Picture } from './picture.ts';
import { isPng, readPng } from './png.ts';
import { isWebp, readWebp } from './webp.ts';

/** What a host reads of a file that should be a photograph. */
export type FileBytes =
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array }
  | { readonly kind: 'missing' }
  /** `reason` as a sentence goes on: `heron.jpg …`. */
  | { readonly kind: 'unreadable'; readonly reason: string }
  | { readonly kind: 'too large'; readonly reason: string };

export type PhotoFile = Exclude<FileBytes, { kind: 'bytes' }> | ({ readonly kind: 'photo' } & PhotoHead);

export interface PhotoHead {
  readonly format: 'JPEG' | 'PNG' | 'WebP';
  /** In pixels, as it is looked at. */
  readonly width: number;
  readonly height: number;
  /** Another one where the file is likely to have changed. */
  readonly mark: string;
}

/** A camera's picture has some 5 to 15 MB and 12 to 50 megapixels; a page that holds several of them still opens. */
export const MOST_PHOTO_BYTES = 20 * 1024 * 1024;
const MOST_PIXELS = 50_000_000;

export const PHOTO_ENDINGS = ['jpg', 'jpeg', 'png', 'webp'] as const;
export const isPhotoName = (name: string): boolean =>
  PHOTO_ENDINGS.some((ending) => name.toLowerCase().endsWith(`.${ending}`));

export const tooManyBytes = (bytes: number): FileBytes => ({
  kind: 'too large',
  reason: `has ${Math.ceil(bytes / 1024 / 1024)} MB, more than the ${MOST_PHOTO_BYTES / 1024 / 1024} MB that a photograph may have`,
});

/** `reason` as a sentence by itself: `it is a folder`. */
export const unreadPhoto = (reason: string): FileBytes => ({ kind: 'unreadable', reason: `cannot be read: ${reason}` });

const FORMATS = { jpeg: 'JPEG', png: 'PNG', webp: 'WebP' } as const;

/** What a file is, without its picture. */
export function photoFile(file: FileBytes): PhotoFile {
  if (file.kind !== 'bytes') return file;
  const { bytes } = file;
  if (bytes.length > MOST_PHOTO_BYTES) return photoFile(tooManyBytes(bytes.length));
  const picture = pictureIn(bytes);
  if ('broken' in picture) return { kind: 'unreadable', reason: picture.broken };
  const { kind, orientation } = picture;
  const pixels = picture.width * picture.height;
  if (pixels > MOST_PIXELS)
    return {
      kind: 'too large',
      reason: `has ${Math.round(pixels / 1e6)} megapixels, more than the ${MOST_PIXELS / 1e6} that a photograph may have`,
    };
  const [width, height] = liesOnItsSide(orientation)
    ? [picture.height, picture.width]
    : [picture.width, picture.height];
  return { kind: 'photo', format: FORMATS[kind], width, height, mark: markOf(bytes) };
}

function pictureIn(bytes: Uint8Array): Picture | Broken {
  if (isJpeg(bytes)) return readJpeg(bytes);
  if (isPng(bytes)) return readPng(bytes);
  if (isWebp(bytes)) return readWebp(bytes);
  return { broken: bytes.length === 0 ? 'is empty' : 'is no JPEG, PNG or WebP, whatever its name says' };
}

/** Length and a sum over some thousand bytes of it (FNV-1a). */
function markOf(bytes: Uint8Array): string {
  const step = Math.max(1, Math.floor(bytes.length / 4096));
  let sum = 0x811c9dc5;
  for (let at = 0; at < bytes.length; at += step) sum = Math.imul(sum ^ (bytes[at] ?? 0), 0x01000193);
  return `${bytes.length.toString(36)}-${(sum >>> 0).toString(36)}`;
}

declare const clean: unique symbol;

/** A photograph without what the camera wrote beside it. Only `cleanPhoto` makes one: nothing else comes into a page. */
export interface CleanPhoto {
  readonly [clean]: true;
  readonly mime: 'image/jpeg' | 'image/png' | 'image/webp';
  readonly width: number;
  readonly height: number;
  readonly bytes: Uint8Array;
}

/** The copy for pages and cards; `undefined` where the file is no photograph within the limits. */
export function cleanPhoto(bytes: Uint8Array): CleanPhoto | undefined {
  const file = photoFile({ kind: 'bytes', bytes });
  const picture = pictureIn(bytes);
  if (file.kind !== 'photo' || 'broken' in picture) return undefined;
  const { width, height } = file;
  return { mime: `image/${picture.kind}`, width, height, bytes: joined(picture.kept) } as CleanPhoto;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const made = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    made.set(part, at);
    at += part.length;
  }
  return made;
}

export const dataUri = ({ mime, bytes }: CleanPhoto): string => `data:${mime};base64,${toBase64(bytes)}`;

/** By pieces: a call takes only so many arguments. */
function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += PIECE) pieces.push(String.fromCharCode(...bytes.subarray(at, at + PIECE)));
  return btoa(pieces.join(''));
}

const PIECE = 0x8000;
