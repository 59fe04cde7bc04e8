/** What is offered in the list of each line, over whole samples: it changes something, once, and stands where it belongs. */
import assert from 'node:assert/strict';
import { editedText } from '../../grammar/src/edited-text.ts';
import type { Span } from '../../grammar/src/span.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { quickFixes } from '../../server/src/features/code-actions.ts';
import { unitConversions } from '../../server/src/features/convert-unit.ts';
import { extractions } from '../../server/src/features/extract-part.ts';
import { identifyOffers } from '../../server/src/features/identify-actions.ts';
import { lineFixes } from '../../server/src/features/line-fixes.ts';
import { refactorings } from '../../server/src/features/refactorings.ts';
import { repairActions } from '../../server/src/features/repair-actions.ts';
import { selectorActions } from '../../server/src/features/selector-actions.ts';
import { sortings } from '../../server/src/features/sort-block.ts';
import { splits } from '../../server/src/features/split-file.ts';
import type { Refactoring } from '../../server/src/features/text-edits.ts';
import { wiringActions } from '../../server/src/features/wiring-actions.ts';
import { finished } from '../../server/src/physics/switching/steps.ts';
import { analysedSample } from '../support/sample-files.ts';

interface Offer {
  readonly of: (analysis: Analysis, span: Span) => readonly Refactoring[];
  /** The lines at which it belongs; a finding's own where none is given. */
  readonly lines?: RegExp;
}

const OFFERS: Readonly<Record<string, Offer>> = {
  'fixes of a finding': { of: quickFixes },
  'plans that settle a finding': { of: repairActions },
  'lines for a person to fill in': { of: lineFixes },
  'leads that readings prove': { of: identifyOffers, lines: /^\s*(?:pickup|conductors) / },
  'another unit': { of: unitConversions, lines: /\d/ },
  'the order of lines': { of: sortings, lines: /\{/ },
  'turns and targets': { of: refactorings, lines: /^\s*(?:pickup|coil|turns|target|resistance|resonance|inductance) / },
  'parts that move': {
    of: (analysis, span) => extractions(analysis, span, []),
    lines: /^(?:wire|spool|bobbin|magnet) /,
  },
  'a file that is split': { of: (analysis, span) => splits(analysis, span, []), lines: /^pickup / },
  'positions from the wiring': { of: selectorActions, lines: /^ *(?:wiring|selector|\\d+) / },
  'a wiring that is planned': {
    of: (analysis, span) => finished(wiringActions(analysis, span)),
    lines: /^ *(?:switch|wiring|selector) /,
  },
};

const SAMPLES = ['foundling', 'quorl', 'pennywither', 'ottlewick-neck', 'parts/stock', 'mistakes/phase-coils-cancel'];

describe('what a line offers', function () {
  this.timeout(60_000);
  const seen = new Set<string>();
  for (const sample of SAMPLES)
    it(`changes something, is offered once and where it belongs: ${sample}`, () => {
      const analysis = analysedSample(`${sample}.pickup`);
      const found = analysis.findings.flatMap(({ place }) => analysis.locate(place) ?? []);
      for (const { text, start } of linesOf(analysis.text)) {
        const at = start + (text.length - text.trimStart().length);
        const end = start + text.length;
        const titles: string[] = [];
        for (const [kind, { of, lines }] of Object.entries(OFFERS))
          for (const { title, edits } of of(analysis, { start: at, end: at })) {
            const where = `${sample}: ${text.trim()}: ${title}`;
            seen.add(kind);
            titles.push(title);
            assert.ok(changes(analysis, edits), where);
            if (lines) assert.match(text, lines, where);
            else
              assert.ok(
                found.some((each) => each.start <= end && start <= each.end),
                where,
              );
          }
        assert.deepEqual(titles, [...new Set(titles)], text);
      }
    });

  it('covers kinds of all sorts', () => assert.ok(seen.size >= 7, [...seen].join(', ')));

  it('a file of parts, an empty one and one of comments offer no work on pickups', () => {
    const analysis = analysedSample('parts/stock.pickup');
    for (const { start } of linesOf(analysis.text))
      for (const kind of ['leads that readings prove', 'turns and targets', 'parts that move', 'a file that is split'])
        assert.deepEqual(OFFERS[kind]?.of(analysis, { start, end: start }), [], kind);
  });
});

function linesOf(text: string): readonly { readonly text: string; readonly start: number }[] {
  let start = 0;
  return text.split('\n').map((line) => {
    const at = start;
    start += line.length + 1;
    return { text: line, start: at };
  });
}

/** The edits leave some file of theirs with another text. */
function changes(analysis: Analysis, edits: Refactoring['edits']): boolean {
  return [...new Set(edits.map(({ at }) => at.uri))].some((uri) => {
    const before = analysis.textOf(uri);
    const own = edits
      .filter(({ at }) => at.uri === uri)
      .map(({ at: { start, end }, newText }) => ({ start, end, newText }));
    return before !== undefined && editedText(before, own) !== before;
  });
}
