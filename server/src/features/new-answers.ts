/** What is asked of somebody who begins a spec: plain data, so that an editor and a terminal ask the same. */
import { MAGNET_MATERIALS } from '../../../grammar/src/schema/common.ts';

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
  | { readonly kind: 'described'; readonly gauge: (typeof NEW_GAUGES)[number]; readonly measured?: Measured }
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

/** Poles that are magnets themselves, and those of steel above a bar. */
export const NEW_POLES = ['rod', 'slug', 'screw'] as const;
export const NEW_MAGNETS = MAGNET_MATERIALS;

/** What the calliper and the eye say of a pickup on the bench; what is left out keeps its usual measure. Measures as `measureIn` reads them. */
export interface Measured extends Readonly<Partial<Record<MeasureName, string>>> {
  readonly pole?: (typeof NEW_POLES)[number];
  readonly magnet?: (typeof NEW_MAGNETS)[number];
}

/** One question each, in the order in which they are asked. */
export const NEW_MEASURES = {
  wire: { asks: 'Wire: its gauge, as 42 AWG, or its diameter with the enamel taken off, as 0.063 mm', numbers: 1 },
  core: { asks: 'Core of the bobbin, length x width in mm', numbers: 2 },
  window: { asks: 'Winding window, height between the flanges x depth in mm', numbers: 2 },
  poles: { asks: 'How many poles has a coil', numbers: 1 },
  spread: { asks: 'From the centre of the first pole to that of the last, mm', numbers: 1 },
  poleSize: { asks: 'One pole, diameter x length in mm', numbers: 2 },
  bar: { asks: 'Bar magnet below, length x width x thickness in mm', numbers: 3 },
} as const;

export type MeasureName = keyof typeof NEW_MEASURES;

export const MEASURE_NAMES = Object.keys(NEW_MEASURES).filter((name): name is MeasureName => name in NEW_MEASURES);

/** A bar lies only below poles that are no magnets; a coil with one has rods unless somebody says otherwise. */
export const isAsked = (name: MeasureName, pole: (typeof NEW_POLES)[number]): boolean =>
  name !== 'bar' || pole !== 'rod';

export const usualPole = (coils: number): (typeof NEW_POLES)[number] => (coils === 1 ? 'rod' : 'slug');

/** A measure as it is typed, as the language writes it: `60x5,8` is `60 x 5.8 mm`. `undefined` where it is none. */
export function measureIn(name: MeasureName, typed: string): string | undefined {
  const text = typed.trim().replace(/(\d),(\d)/g, '$1.$2');
  const gauge = /^(\d{2})\s*AWG$/i.exec(text)?.[1];
  if (name === 'wire' && gauge !== undefined) return `${gauge} AWG`;
  if (name === 'poles') return /^[1-9]\d?$/.test(text) ? text : undefined;
  const [, numbers = '', unit = 'mm'] = /^([\d.\sx×*]+?)\s*(mm|in)?$/i.exec(text) ?? [];
  const parts = numbers.split(/[x×*]/).map((each) => each.trim());
  const areNumbers = parts.every((each) => /^\d+(\.\d+)?$/.test(each) && Number(each) > 0);
  return areNumbers && parts.length === NEW_MEASURES[name].numbers
    ? `${parts.join(' x ')} ${unit.toLowerCase()}`
    : undefined;
}

/** A file to be written: its path, below the folder that it is begun in. */
export interface NewFile {
  readonly path: string;
  readonly text: string;
}
