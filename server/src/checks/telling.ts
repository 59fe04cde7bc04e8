/** What a finding tells, in parts, so that a terminal, a drawing or a card can set each where it belongs. */
import type { Language } from '../words/languages/language.ts';
import { inEnglish, type Said, say, type Worded } from './say.ts';

/** Whole sentences each. */
export interface Telling<T = Worded> {
  /** The fault, and what follows from it. */
  readonly what: T;
  /** What is likely behind it, or why it matters. */
  readonly hint?: T | undefined;
  /** What to do, as an order. */
  readonly action?: T | undefined;
}

export interface Told extends Telling<Said> {
  /** All parts in one text. */
  readonly message: Said;
  /** The parts as they were made, for a finding that is told otherwise. */
  readonly telling: Telling;
}

/** In English, as terminals and files have it. */
export function told(telling: Telling): Told {
  return { ...partsIn(telling, inEnglish), telling };
}

/** As it is told in a language; `foreign` where not all of its parts are in it yet: it is in English then, as a whole. */
export interface ToldIn extends Omit<Told, 'telling'> {
  readonly foreign?: 'en';
}

export function tellIn({ telling, what, hint, action, message }: Told, t: Language): ToldIn {
  if (t.code === 'en') return { what, hint, action, message };
  const { what: fault, ...others } = telling;
  const isKnown = [fault, others.hint, others.action].every((part) => typeof part !== 'string');
  if (!isKnown) return { what, hint, action, message, foreign: 'en' };
  return partsIn(telling, (part) => (typeof part === 'function' ? (part(t) as Said) : part));
}

function partsIn({ what, hint, action }: Telling, made: (part: Worded) => Said): Omit<Told, 'telling'> {
  const parts = { what: made(what), hint: hint && made(hint), action: action && made(action) };
  const message = [parts.what, parts.hint, parts.action].filter(Boolean).join(' ');
  return { ...parts, message: say`${message}` };
}
