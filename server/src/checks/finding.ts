import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { Wording } from '../words/languages/language.ts';
import type { Code } from './pages.ts';
import type { Said } from './say.ts';
import type { Told } from './telling.ts';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** A fault as a value: what, where, why, and what a person can do about it. */
export interface Finding extends Told {
  /** Stable code of two words: `phase/coils-cancel`. */
  readonly code: Code;
  readonly severity: Severity;
  /** The writer keeps it, see `accept`. */
  readonly isAccepted?: true;
  readonly place: Place;
  readonly related: readonly Related[];
  /** Remedies proposed by the check, made on demand. They are offered only once verified, see `Analysis.verifiedFixes`. `inSight`: all pickups that the file may name. */
  remedies(inSight?: readonly Pickup[]): readonly Remedy[];
  /** What the finding is about, for the drawing: coils and leads by name. */
  readonly subject: Subject;
}

export interface Related {
  readonly message: Said;
  /** The message in a language; absent where it is told in English only. */
  readonly words?: Wording;
  readonly place: Place;
}

export interface Remedy {
  readonly title: Said;
  /** The title in a language; absent where it is told in English only. */
  readonly words?: Wording;
  readonly edits: readonly Edit[];
  /** The change people would make first. */
  readonly preferred?: boolean;
  /** `text`: a correction of the writing, true by itself (a unit, a spelling). `build`: a change of the build, to be solved again. */
  readonly kind: 'text' | 'build';
  /** Findings that this remedy is known to leave or bring as information. */
  readonly leaves?: readonly string[];
}

export interface Edit {
  readonly place: Place;
  readonly newText: string;
}

export interface Subject {
  readonly pickup?: string;
  readonly instrument?: string;
  readonly position?: string;
  readonly coils?: readonly string[];
  /** Leads and ends as the netlist names them. */
  readonly nodes?: readonly string[];
}
