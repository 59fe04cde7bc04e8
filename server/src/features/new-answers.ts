/** What is asked of somebody who begins a spec: plain data, so that an editor and a terminal ask the same. */

export const NEW_KINDS = ['pickup', 'instrument'] as const;
export const NEW_STRINGS = [4, 5, 6, 7, 8] as const;
export const NEW_COILS = [1, 2] as const;
export const NEW_POSITIONS = ['bridge', 'middle', 'neck'] as const;
/** Gauges that coils of pickups are mostly wound with, AWG. Common practice, no published source. */
export const NEW_GAUGES = [42, 43, 44] as const;

export interface NewAnswers {
  readonly what: (typeof NEW_KINDS)[number];
  readonly title: string;
  readonly strings: (typeof NEW_STRINGS)[number];
  /** Of each pickup. */
  readonly coils: (typeof NEW_COILS)[number];
  /** Of a pickup the place that it is meant for; an instrument has one pickup at each. */
  readonly positions: readonly (typeof NEW_POSITIONS)[number][];
  /** Start and finish of each coil, in order: twice as many as there are coils. */
  readonly leads: readonly string[];
  readonly parts: NewParts;
  /** Of each coil; left out where a reading is to tell. */
  readonly turns?: number;
}

/** Parts of a file of the shop, by name, or such as are described in the new file, to be corrected by what the caliper shows. */
export type NewParts =
  | { readonly kind: 'described'; readonly gauge: (typeof NEW_GAUGES)[number] }
  | {
      readonly kind: 'shelf';
      /** The path that `use` names. */
      readonly use: string;
      readonly bobbin: string;
      /** Whether the bobbin's poles are magnets; if not, a bar lies below. */
      readonly ownMagnets: boolean;
      readonly wire: { readonly kind: 'wire' | 'spool'; readonly name: string };
      readonly magnet?: string;
    };

/** A file to be written: its path, below the folder that it is begun in. */
export interface NewFile {
  readonly path: string;
  readonly text: string;
}
