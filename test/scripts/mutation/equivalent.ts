/** Changes that change nothing: each with the reason, so that nobody looks for a test that cannot be. */
import type { Mutant } from './mutants.ts';

interface Equivalent extends Pick<Mutant, 'file' | 'before' | 'after'> {
  readonly because: string;
}

const CUT = 'grammar/src/cut.ts';
const NETLIST = 'server/src/model/netlist.ts';
const CIRCUIT = 'server/src/estimates/pickup-circuit.ts';
const ONLY_SLOWER = 'what is not remembered is made again, alike';
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
  {
    file: NETLIST,
    before: "nodes.add(partNode('shield'));",
    after: '',
    because: 'the next line joins it to its lead, which adds it',
  },
  {
    file: 'server/src/model/joined-nodes.ts',
    before: 'this.add(b);',
    after: '',
    because: 'a point that is not there stands for itself, and is put in as it is joined',
  },
  {
    file: NETLIST,
    before: 'if (first === undefined) return undefined;',
    after: '',
    because: 'a path has a first part',
  },
  {
    file: CIRCUIT,
    before: 'if (winding.start === undefined || winding.finish === undefined) return [];',
    after: '',
    because: 'both ends of every coil are points of the netlist',
  },
  {
    file: CIRCUIT,
    before: 'winding.start === undefined || winding.finish === undefined',
    after: '(winding.start === undefined) && (winding.finish === undefined)',
    because: 'both ends of every coil are points of the netlist',
  },
  {
    file: CIRCUIT,
    before: 'solved.get(netlist) ?? new Map<string, DcPickup>()',
    after: 'new Map<string, DcPickup>()',
    because: ONLY_SLOWER,
  },
  { file: CIRCUIT, before: 'solved.set(netlist, known);', after: '', because: ONLY_SLOWER },
  { file: CIRCUIT, before: 'if (before) return before;', after: '', because: ONLY_SLOWER },
  { file: CIRCUIT, before: 'known.set(key, made);', after: '', because: ONLY_SLOWER },
  { file: CIRCUIT, before: 'known.clear();', after: '', because: 'more is remembered than need be' },
  {
    file: CIRCUIT,
    before: 'known.size >= MOST_REMEMBERED',
    after: '!(known.size >= MOST_REMEMBERED)',
    because: ONLY_SLOWER,
  },
  {
    file: CIRCUIT,
    before: 'known.size >= MOST_REMEMBERED',
    after: '(known.size) > (MOST_REMEMBERED)',
    because: 'one more is remembered',
  },
];

export const equivalenceOf = ({ file, before, after }: Mutant): string | undefined =>
  EQUIVALENT.find((each) => each.file === file && each.before === before && each.after === after)?.because;
