/** What the reader of each format makes of a file. */
import type { Orientation } from './orientation.ts';

export interface Picture {
  readonly kind: 'jpeg' | 'png' | 'webp';
  /** As stored, in pixels. */
  readonly width: number;
  readonly height: number;
  readonly orientation: Orientation;
  /**
   * The file made anew of what a picture needs to be painted, in order: no place, no time, no camera, no words, no thumbnail, nothing
   * behind its end. Only which way up is kept.
   */
  readonly kept: readonly Uint8Array[];
}

/** Why a file is no picture, as a sentence goes on: `heron.jpg …`. */
export interface Broken {
  readonly broken: string;
}

export const ENDS_EARLY: Broken = { broken: 'ends before its picture does: it was not copied whole' };
export const NO_SIZE: Broken = { broken: 'does not say how large its picture is' };

/** Letters as a format writes its names. */
export const letters = (bytes: Uint8Array, start: number, end: number): string =>
  String.fromCharCode(...bytes.subarray(start, end));

export const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
