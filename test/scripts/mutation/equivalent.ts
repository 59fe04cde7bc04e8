/** Changes that change nothing: each with the reason, so that nobody looks for a test that cannot be. */
import type { Mutant } from './mutants.ts';

interface Equivalent extends Pick<Mutant, 'file' | 'before' | 'after'> {
  readonly because: string;
}

const CUT = 'grammar/src/cut.ts';
const PAST_THE_END = 'behind the last character there is nothing that a scan could take for anything';

const EQUIVALENT: readonly Equivalent[] = [
  { file: CUT, before: 'at < text.length', after: '(at) <= (text.length)', because: PAST_THE_END },
  { file: CUT, before: 'at >= text.length', after: '(at) > (text.length)', because: PAST_THE_END },
  { file: CUT, before: 'break;', after: '', because: PAST_THE_END },
  {
    file: CUT,
    before: 'open.length > 0',
    after: '(open.length) >= (0)',
    because: 'where nothing is open, none of the open blocks is kept, and none can hold the word',
  },
  { file: CUT, before: 'code > 127', after: '(code) >= (127)', because: 'character 127 is no space' },
];

export const equivalenceOf = ({ file, before, after }: Mutant): string | undefined =>
  EQUIVALENT.find((each) => each.file === file && each.before === before && each.after === after)?.because;
