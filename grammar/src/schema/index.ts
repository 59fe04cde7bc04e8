/** The language as data: every block kind by its keyword. */
import { bench } from './bench.ts';
import type { BlockSchema } from './block-schema.ts';
import { bobbin } from './bobbin.ts';
import { coil } from './coil.ts';
import { controls } from './controls.ts';
import { hookup } from './hookup.ts';
import { instrument } from './instrument.ts';
import { magnet } from './magnet.ts';
import { pickup } from './pickup.ts';
import { potting } from './potting.ts';
import { readings } from './readings.ts';
import { selector } from './selector.ts';
import { spool } from './spool.ts';
import { switchPart } from './switch.ts';
import { target } from './target.ts';
import { wire } from './wire.ts';
import { wiring } from './wiring.ts';

/** Typed, for those who read a block's facts by name. */
export const language = {
  bench,
  wire,
  spool,
  bobbin,
  magnet,
  switch: switchPart,
  pickup,
  coil,
  hookup,
  readings,
  potting,
  target,
  instrument,
  controls,
  wiring,
  selector,
} as const;

export type BlockKeyword = keyof typeof language;

/** The same by keyword as written; a name such as `__proto__` finds nothing. */
export const schemas: ReadonlyMap<string, BlockSchema> = new Map<string, BlockSchema>(Object.entries(language));
