import type { Problem } from '../../../grammar/src/syntax-problem.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import type { Bench } from './bench.ts';
import type { Bobbin } from './bobbin.ts';
import type { Instrument } from './instrument.ts';
import type { Magnet } from './magnet.ts';
import type { Pickup } from './pickup.ts';
import type { Place } from './place.ts';
import type { Switch } from './switch.ts';
import type { Spool, Wire } from './wire.ts';

/** What one file declares. */
export interface FileModel {
  readonly benches: readonly Bench[];
  readonly wires: readonly Wire[];
  readonly spools: readonly Spool[];
  readonly bobbins: readonly Bobbin[];
  readonly magnets: readonly Magnet[];
  readonly switches: readonly Switch[];
  readonly pickups: readonly Pickup[];
  readonly instruments: readonly Instrument[];
  /** Every place that names a thing, for definition, references and rename: gathered when somebody asks. */
  readonly references: () => readonly Reference[];
  /** Those that stand in one of these pieces. */
  readonly referencesIn: (chunks: ReadonlySet<Chunk>) => readonly Reference[];
}

export interface Reference {
  readonly place: Place;
  readonly kind: 'wire' | 'spool' | 'bobbin' | 'magnet' | 'switch' | 'pickup' | 'instrument' | 'coil' | 'lead' | 'slot';
  readonly name: string;
  /** Where the name is declared; `undefined` where nothing declares it. The declaration itself is listed too, with `declares`. */
  readonly target: Place | undefined;
  readonly declares: boolean;
}

/** Codes of names that do not resolve, and of files that hold no curve. */
export type ModelCode =
  | 'name/unknown'
  | 'name/duplicate'
  | 'name/cycle'
  | 'analysis/incomplete'
  | 'sweep/file'
  | 'sweep/missing'
  | 'use/outside'
  | 'switch/contact-table';

/** A name that does not resolve, placed in one of several files. */
export type ModelProblem = Problem<ModelCode, { readonly place: Place }>;
