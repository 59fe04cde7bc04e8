/** The switches of an instrument and what is soldered to their lugs: lines over terminals. */
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { LeadPath } from './lead.ts';
import type { Place, Stated } from './place.ts';
import type { Switch } from './switch.ts';

/** A switch of the instrument. */
export interface SwitchSlot {
  readonly name: string;
  readonly part: Switch | undefined;
  readonly partName: Stated<string>;
  /** The control on whose shaft it sits. */
  readonly on: Stated<string> | undefined;
  readonly place: Place;
}

/** A terminal as a line names it. */
export interface WrittenTerminal {
  /** One name, however it is written: `hot`, `ground`, `jack`, `bridge.violet`, `lever.a1`, `loud.wiper`. */
  readonly name: string;
  readonly path: LeadPath;
}

export interface WiringLine {
  readonly kind: 'hot' | 'link' | 'ground' | 'free';
  readonly terminals: readonly WrittenTerminal[];
  readonly place: Place;
}

export interface WiringPart {
  readonly kind: 'resistor' | 'capacitor';
  readonly value: Quantity;
  readonly ends: readonly [WrittenTerminal, WrittenTerminal];
  readonly place: Place;
}

export interface Wiring {
  /** The block's first line. */
  readonly place: Place;
  /** In the order of the text. */
  readonly lines: readonly WiringLine[];
  readonly parts: readonly WiringPart[];
  /** Some line, or a name in it, could not be read: what seems wrong may rest on that. */
  readonly isUnread: boolean;
}

export const HOT_TERMINAL = 'hot';
export const GROUND_TERMINAL = 'ground';
export const JACK_TERMINAL = 'jack';
export const COMMON_TERMINALS = [HOT_TERMINAL, GROUND_TERMINAL, JACK_TERMINAL] as const;

export const CONTROL_LUGS = ['input', 'wiper', 'low'] as const;
