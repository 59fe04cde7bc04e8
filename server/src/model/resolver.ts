import type { Bench } from './bench.ts';
import type { Bobbin } from './bobbin.ts';
import type { Instrument } from './instrument.ts';
import type { Magnet } from './magnet.ts';
import type { ModelProblem } from './model.ts';
import type { Pickup } from './pickup.ts';
import type { Stated } from './place.ts';
import type { CurveAt } from './sweep.ts';
import type { Switch } from './switch.ts';
import type { Spool, Wire } from './wire.ts';

/** What each block at the top of a file declares. */
export interface Things {
  readonly bench: Bench;
  readonly wire: Wire;
  readonly spool: Spool;
  readonly bobbin: Bobbin;
  readonly magnet: Magnet;
  readonly switch: Switch;
  readonly pickup: Pickup;
  readonly instrument: Instrument;
}

export const SHOP_KINDS = ['wire', 'spool', 'bobbin', 'magnet', 'switch', 'pickup', 'instrument'] as const;
export type ShopKind = (typeof SHOP_KINDS)[number];

/** Names in scope while a block is read. Every name that a block holds has been looked up, told where unknown, and remembered before. */
export interface Resolver {
  thing<K extends ShopKind>(kind: K, name: Stated<string> | undefined): Things[K] | undefined;
  /** The pickup as it was, of which this one is a later state. */
  readonly former: Pickup | undefined;
  /** The curve at a path, counted from the file that the block is written in. */
  curve(file: Stated<string>): CurveAt;
  report(problem: ModelProblem): void;
}
