import type { Place } from './place.ts';

/** A lead, a coil's end, a metal part or a slot as named in a line: `violet`, `slug.start`, `baseplate`, `bridge.slug`. */
export interface LeadPath {
  readonly parts: readonly string[];
  readonly text: string;
  readonly place: Place;
}

export const METAL_PARTS = ['baseplate', 'cover'] as const;

/** Two points that probes touch; red first. */
export interface Probes {
  readonly red: LeadPath;
  readonly black: LeadPath;
}
