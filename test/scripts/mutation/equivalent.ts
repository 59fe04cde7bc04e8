/** Changes that change nothing: each with the reason, so that nobody looks for a test that cannot be. */
import type { Mutant } from './mutants.ts';

interface Equivalent extends Pick<Mutant, 'file' | 'before' | 'after'> {
  /** What its line holds, where the same change elsewhere is another thing. */
  readonly of?: string;
  readonly because: string;
}

const CUT = 'grammar/src/cut.ts';
const NETLIST = 'server/src/model/netlist.ts';
const CIRCUIT = 'server/src/estimates/pickup-circuit.ts';
const SIGNS = 'server/src/estimates/signs.ts';
const ANALYSIS = 'server/src/analysis/';
const ONLY_SIGN = 'of a kick only the sign of what the probes see is taken, which no resistance turns';
const NO_NET =
  'both are one net, or one is not there: no path leads from the one to the other, or nothing lies between';
const ROUNDING = 'the bound parts rounding from a path; nothing lies on it';
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
  ...[
    ['hot !== undefined && ground !== undefined', '(hot !== undefined) || (ground !== undefined)', NO_NET],
    ['state === life.states[0]', '(state) !== (life.states[0])', ONLY_SIGN],
    ['isNow', '!(isNow)', ONLY_SIGN],
    ['if (!coil) return [];', '', 'a coil that is not there has no share in what the probes see'],
    ['if (!nets || nets[0] === nets[1]) return undefined;', '', NO_NET],
    ['Math.abs(signs.transfer) >= NOTHING', '(Math.abs(signs.transfer)) > (NOTHING)', ROUNDING],
    ['Math.abs(transfer) < NOTHING', '(Math.abs(transfer)) <= (NOTHING)', ROUNDING],
    ['transfer > 0', '(transfer) >= (0)', ROUNDING],
  ].map(([before = '', after = '', because = '']) => ({ file: SIGNS, before, after, because })),
  {
    file: 'server/src/estimates/sign-system.ts',
    before: 'Math.min(...row.signs)',
    after: 'Math.max(...row.signs)',
    because: 'any sign of an equation may stand for it in the elimination, as long as it is always the same one',
  },
  {
    file: 'server/src/estimates/phase.ts',
    before: 'weight * (signs[index] ?? 1)',
    after: '(weight) / ((signs[index] ?? 1))',
    because: 'a sign is 1 or −1',
  },
  {
    file: 'server/src/estimates/sources.ts',
    before: '10',
    after: '11',
    because: 'one low frequency is as good as another: resistances decide',
  },
  {
    file: `${ANALYSIS}early-findings.ts`,
    before: 'state.model.instruments.length > 0',
    after: '(state.model.instruments.length) >= (0)',
    because: 'without an instrument nothing is fitted',
  },
  {
    file: `${ANALYSIS}former-states.ts`,
    before: 'newest.some((each) => each === slot.pickup)',
    after: 'newest.every((each) => each === slot.pickup)',
    because: 'a pickup is among its newest states only where it is the only one',
  },
  ...[
    ['file-state.ts', 'analysedInstrument(instrument, state, faults);'],
    ['use-graph.ts', 'reached.set(uri, found);'],
    ['use-graph.ts', 'if (known) return known;'],
    ['use-graph.ts', 'scopes.set(uri, scope);'],
  ].map(([file = '', before = '']) => ({ file: ANALYSIS + file, before, after: '', because: ONLY_SLOWER })),
  {
    file: `${ANALYSIS}use-graph.ts`,
    before: "use.uri !== undefined && use.state === 'read'",
    after: "(use.uri !== undefined) || (use.state === 'read')",
    because: 'a file that was not read is passed over when its turn comes',
  },
  {
    file: `${ANALYSIS}verified-fixes.ts`,
    before: 'here.models.filter((model) => !known.has(model) || isRecord(model, here) !== isRecord(model, there))',
    after: 'here.models',
    because: 'what is the same in both states counts the same in both',
  },
  {
    file: `${ANALYSIS}verified-fixes.ts`,
    before: 'things.filter((each) => !isAbout(each))',
    after: 'things',
    because: 'what counts twice in both states counts the same in both',
  },
  {
    file: `${ANALYSIS}verified-fixes.ts`,
    before: "models.filter(({ declared }) => declared?.kind === 'pickup' || declared?.kind === 'instrument')",
    after: 'models',
    because: 'of what is neither pickup nor instrument nothing is solved',
  },
  {
    file: `${ANALYSIS}verified-fixes.ts`,
    before: 'state.model.instruments.length > 0',
    after: '(state.model.instruments.length) >= (0)',
    because: ONLY_SLOWER,
  },
  {
    file: 'server/src/repair/search.ts',
    before: 'if (!one || !other) return;',
    after: '',
    because: 'both places are in the heap',
  },
  {
    file: 'server/src/repair/search.ts',
    before: 'one.chosen.length < other.chosen.length',
    after: '(one.chosen.length) <= (other.chosen.length)',
    because: 'they were found unlike just before',
  },
  ...[
    ['at > 0', '(at) >= (0)', 'nothing lies above the first place, so nothing there is worse'],
    ['if (top === undefined || last === undefined) return undefined;', '', 'of an empty heap the first is none'],
    [
      'top === undefined || last === undefined',
      '(top === undefined) && (last === undefined)',
      'with one there are both',
    ],
    ['child < heap.length', '(child) <= (heap.length)', 'behind the last place there is none, which is never less'],
    ['if (!one || !other) return false;', '', 'both places are in the heap'],
    ['!one || !other', '(!one) && (!other)', 'both places are in the heap'],
    ['false', 'true', 'both places are in the heap'],
    ['one.minutes < other.minutes', '(one.minutes) <= (other.minutes)', 'they were found unlike just before'],
    [
      '(one.chosen[index] ?? 0) < (other.chosen[index] ?? 0)',
      '((one.chosen[index] ?? 0)) <= ((other.chosen[index] ?? 0))',
      'they were found unlike just before',
    ],
  ].map(([before = '', after = '', because = '']) => ({ file: 'server/src/repair/search.ts', before, after, because })),
  ...[
    ['({})', 'undefined', 'nothing spread and an empty object spread come to the same'],
    ['{}', 'undefined', 'nothing spread and an empty object spread come to the same'],
    [
      "if (!solutions.every((each) => each.moves.some(({ work }) => work === 'rewind'))) return {};",
      '',
      'a set without winding is found again by the search without it',
    ],
    [
      "solutions.every((each) => each.moves.some(({ work }) => work === 'rewind'))",
      "solutions.some((each) => each.moves.some(({ work }) => work === 'rewind'))",
      'a set without winding is found again by the search without it',
    ],
  ].map(([before = '', after = '', because = '']) => ({
    file: 'server/src/repair/plan-repairs.ts',
    before,
    after,
    because,
  })),
  ...[
    ['lender === own || !here || !worked', '(lender === own || !here) && (!worked)'],
    ['lender === own || !here', '(lender === own) && (!here)'],
  ].map(([before = '', after = '']) => ({
    file: 'server/src/repair/keep-likes.ts',
    before,
    after,
    because: 'nobody asks it about one and the same pickup, and each stands in a block of its own',
  })),
  {
    file: 'server/src/repair/faults.ts',
    before: 'remembered.set(key, solved);',
    after: '',
    because: ONLY_SLOWER,
  },
  {
    file: 'server/src/repair/faults.ts',
    before: 'insideOnePickup(a, b)',
    after: 'insideOnePickup(b, a)',
    because: 'two coils lie in one pickup, whichever is named first',
  },
  {
    file: 'server/src/repair/changed-pickup.ts',
    before: 'coil.wound?.place ?? coil.place',
    after: 'coil.place',
    because: 'a changed copy is solved, not shown: its places are not looked at',
  },
  {
    file: 'server/src/repair/pickup-edits.ts',
    before: 'leadEdits(coil, changed)',
    after: 'leadEdits(changed, coil)',
    because: 'two ends that change places do so either way',
  },
  {
    file: 'server/src/repair/pickup-edits.ts',
    before: 'if (!edits || edits.length === 0) return edits;',
    after: '',
    because: 'no edits stay none wherever they are written',
  },
  {
    file: 'server/src/repair/faults.ts',
    before: 'if (known) return known;',
    after: '',
    because: ONLY_SLOWER,
  },
  {
    file: `${ANALYSIS}early-findings.ts`,
    before: 'alike < most',
    after: '(alike) <= (most)',
    because: 'behind the shorter of two texts one has no character, and two of one length are the same up to there',
  },
  {
    file: `${ANALYSIS}text-findings.ts`,
    before: 'if (!first) return [];',
    after: '',
    because: 'where there is no bench, none is told of',
  },
  ...[
    ["if (use.uri === undefined || content?.kind !== 'use' || !content.path) return [];", ''],
    ["use.uri === undefined || content?.kind !== 'use'", "(use.uri === undefined) && (content?.kind !== 'use')"],
  ].map(([before = '', after = '']) => ({
    file: `${ANALYSIS}text-findings.ts`,
    before,
    after,
    because: 'a file that is missing was named by a path that leads somewhere',
  })),
  ...[
    ['analysis.ts', 'end < content.text.length', '(end) <= (content.text.length)'],
    ['analysis.ts', 'trees.read(uri, content.text.slice(0, end));', ''],
    ['analysis.ts', 'yield;', ''],
    ['analysis.ts', '16_384', '16385'],
    ['analysis.ts', '40', '41'],
    ['file-state.ts', 'yield;', ''],
    ['file-state.ts', 'continue;', ''],
    ['instrument-analysis.ts', 'solvedPosition(position, instrument, quickOf(bench), bench);', ''],
    ['use-graph.ts', 'last.has(uri)', '!(last.has(uri))'],
  ].map(([file = '', before = '', after = '']) => ({
    file: ANALYSIS + file,
    before,
    after,
    because: 'how much is done in one step changes nothing of what comes of all',
  })),
  ...[
    ['ago > 0', '(ago) >= (0)', 'nothing was outlasted by the pickup as it is, and no work was done on it', ''],
    [
      'life.states.length - 1',
      '(life.states.length) + (1)',
      'nothing was stated or read of states that there are not',
      '',
    ],
    ['0', '1', ONLY_SIGN, 'life.states[0]'],
    ['1', '2', ONLY_SIGN, 'ALL_ALIKE'],
    ['1', 'undefined', ONLY_SIGN, 'ALL_ALIKE'],
    ['1', '2', 'of two signs it is only asked whether they are the same', 'share > 0 ?'],
    ['share > 0', '(share) >= (0)', 'a share that is nothing was left out', ''],
    [
      'start !== undefined && finish !== undefined',
      '(start !== undefined) || (finish !== undefined)',
      'both ends of every coil are points of the netlist',
      '',
    ],
    ['1', '2', NO_NET, 'nets[0] === nets[1]'],
    ['Math.abs(share) < NOTHING', '(Math.abs(share)) <= (NOTHING)', ROUNDING, ''],
  ].map(([before = '', after = '', because = '', of = '']) => ({ file: SIGNS, before, after, because, of })),
  {
    file: 'server/src/estimates/sign-system.ts',
    before: 'before.order < each.order',
    after: '(before.order) <= (each.order)',
    because: 'no two equations have one number',
  },
  {
    file: 'server/src/estimates/phase.ts',
    before: '1',
    after: '2',
    of: '    1,',
    because: 'where sizes are taken as alike, it does not matter how large each is',
  },
  {
    file: 'server/src/estimates/sources.ts',
    before: 'if (count === 0) return values;',
    after: '',
    because: ONLY_SLOWER,
  },
  {
    file: NETLIST,
    before: '-1',
    after: '1',
    of: 'netOfNode(partNode(',
    because: 'all metal is among the points of the netlist',
  },
  {
    file: NETLIST,
    before: 'leads.get(leadName(lead.own.value))?.ends.some((e) => e.coil === coil && e.end === end)',
    after: 'leads.get(leadName(lead.own.value))?.ends.every((e) => e.coil === coil && e.end === end)',
    because: 'a lead that a coil brings out is the lead of one end',
  },
  {
    file: NETLIST,
    before: 'name === undefined && coils.length === 1',
    after: '(name === undefined) || (coils.length === 1)',
    because: 'a kick that names no coil says of several nothing, kept or not',
  },
  ...[
    'groundNet !== undefined && chassis !== undefined && groundNet !== chassis',
    'groundNet !== undefined && chassis !== undefined',
  ].map((before) => ({
    file: CIRCUIT,
    before,
    after: `(${before.slice(0, before.lastIndexOf(' && '))}) || (${before.slice(before.lastIndexOf(' && ') + 4)})`,
    because: 'a wire of which one end hangs in the air carries nothing',
  })),
  {
    file: CIRCUIT,
    before: '1',
    after: '2',
    of: '() => 1, a, b',
    because: 'coils alike share alike, whatever each has',
  },
  { file: CIRCUIT, before: 'Math.abs(share) > 1e-3', after: '(Math.abs(share)) >= (1e-3)', because: ROUNDING },
  { file: CIRCUIT, before: '32', after: '33', because: 'one more is remembered' },
  {
    file: 'grammar/src/read-file.ts',
    before: 'before < chunks.length',
    after: '(before) <= (chunks.length)',
    because: 'behind the last piece there is none, where it ends as well',
  },
  ...[
    ["severity === 'information'", "(severity) !== ('information')", 'the two kinds stay apart, whichever is marked'],
    ['if (there === pieces) return [];', '', ONLY_SLOWER],
    ...[
      [
        'state.model.instruments.length > 0 && pickupsInScope(state).some(isRework)',
        '(state.model.instruments.length > 0) || (pickupsInScope(state).some(isRework))',
      ],
      ['accepted.length > 0', '(accepted.length) >= (0)'],
      ['reworks !== undefined', '(reworks) === (undefined)'],
      ['photographsOf(declared.thing).length > 0', '(photographsOf(declared.thing).length) >= (0)'],
      [
        'if (!scope.isAccepting) {\n    yield* differingFindings(state, scope.models[side], scope);\n    return;\n  }',
        '',
      ],
      ['things.filter(isAbout)', 'things'],
      ['if (!scope.isWhole) return;', ''],
    ].map((each) => [...each, 'what is looked at besides counts the same in both states']),
  ].map(([before = '', after = '', because = '']) => ({
    file: `${ANALYSIS}verified-fixes.ts`,
    before,
    after,
    because,
  })),
  ...[
    ['file-state.ts', 'if (known) return known;'],
    ['file-state.ts', 'if (part.lateAreKnown()) return part.lateFindings();'],
    ['former-states.ts', 'if (later.size === 0) return [];'],
    ['instrument-analysis.ts', 'if (instrumentAnalysis.known(written, bench)) return;'],
  ].map(([file = '', before = '']) => ({ file: ANALYSIS + file, before, after: '', because: ONLY_SLOWER })),
];

export const equivalenceOf = (mutant: Mutant): string | undefined =>
  EQUIVALENT.find(
    ({ file, before, after, of = '' }) =>
      file === mutant.file && before === mutant.before && after === mutant.after && mutant.of.includes(of),
  )?.because;
