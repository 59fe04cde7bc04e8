/** What a wiring is looked for: leads, lugs, and what is wanted of each state of the switches. */
import { MOST_NODES } from './node-sets.ts';
import type { DeadElement } from './state-so-far.ts';

export const HOT_LEAD = 0;
export const GROUND_LEAD = 1;
/** Nets of lugs alone, at most. */
export const BUSES = 3;
export const MOST_LEADS = MOST_NODES - BUSES;

export interface WantedState {
  /** Groups of lugs that the contacts close. */
  readonly closed: readonly (readonly number[])[];
  /** What sounds: hot's net, ground's, then inner ones; leads. */
  readonly nets: readonly (readonly number[])[];
  /** By leads. */
  readonly dead: readonly DeadElement[];
}

export interface WiringProblem {
  /** How many leads there are, `MOST_LEADS` at most; `HOT_LEAD` and `GROUND_LEAD` are the first of them. */
  readonly leads: number;
  readonly lugs: number;
  readonly states: readonly WantedState[];
  /** Leads that nobody can solder to: joints inside a pickup that are not brought out. */
  readonly sealed: readonly number[];
  /** Whether the third rule counts. */
  readonly isQuiet: boolean;
  /** Commons of poles that are built alike, so that exchanging them changes nothing. */
  readonly alike: readonly (readonly number[])[];
}

/**
 * How long a search goes on: by what it has looked at, so that every machine finds the same. Between two steps it looks at so little
 * that nobody who waits would notice.
 */
export class Budget {
  #left: number;
  #steps = 0;

  constructor(searches: number) {
    this.#left = searches * PLACES;
  }

  get isSpent(): boolean {
    return this.#left <= 0;
  }

  /** How much has been looked at. */
  get spent(): number {
    return this.#steps;
  }

  /** One place more; true where others may come in between. */
  take(): boolean {
    this.#left -= 1;
    this.#steps += 1;
    return this.#steps % PLACES === 0;
  }

  /** Goes on for so many places at most. */
  limit(places: number): void {
    this.#left = Math.min(this.#left, places);
  }
}

const PLACES = 64;
