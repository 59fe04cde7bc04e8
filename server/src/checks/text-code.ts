/** Codes of faults of the text itself: what is written, named, used and fitted. No check raises them. */
import type { SyntaxCode } from '../../../grammar/src/syntax-problem.ts';
import type { ModelCode } from '../model/model.ts';

export type TextCode =
  | SyntaxCode
  | ModelCode
  | 'accept/unused'
  | 'fit/former-state'
  | 'use/cycle'
  | 'use/missing'
  | PhotoCode;

/** Codes of files that should be photographs. */
export type PhotoCode = 'photo/missing' | 'photo/outside' | 'photo/too-large' | 'photo/unreadable';
