/** Every command, in the order in which help lists them. */
import { cards } from './cards.ts';
import { check } from './check.ts';
import type { Command } from './command.ts';
import { compare } from './compare.ts';
import { curve } from './curve.ts';
import { draw } from './draw.ts';
import { explain } from './explain.ts';
import { fit } from './fit.ts';
import { format } from './format.ts';
import { identify } from './identify.ts';
import { list } from './list.ts';
import { listen } from './listen.ts';
import { newShop } from './new.ts';
import { propose } from './propose.ts';
import { repair } from './repair.ts';
import { report } from './report.ts';
import { signal } from './signal.ts';
import { switchStates } from './switch.ts';
import { turns } from './turns.ts';
import { wire } from './wire.ts';

export const commands: readonly Command[] = [
  check,
  report,
  turns,
  propose,
  draw,
  cards,
  listen,
  fit,
  format,
  repair,
  identify,
  switchStates,
  wire,
  compare,
  list,
  signal,
  curve,
  explain,
  newShop,
];
