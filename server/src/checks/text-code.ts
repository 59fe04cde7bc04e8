/** Codes of faults of the text itself: what is written, named and used. No check raises them. */
import type { SyntaxCode } from '../../../grammar/src/syntax-problem.ts';
import type { ModelCode } from '../model/model.ts';

export type TextCode = SyntaxCode | ModelCode | 'accept/unused' | 'use/cycle' | 'use/missing' | 'use/outside';
