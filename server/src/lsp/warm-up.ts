import { type Span, shiftSpan } from '../../../grammar/src/span.ts';
import { createAnalyser } from '../analysis/analysis.ts';
import type { Analysis, Host } from '../analysis/analysis-types.ts';
import { hover } from '../features/hover.ts';
import { toMarkdown } from '../features/rich-text.ts';
import type { Pace } from './pace.ts';

/**
 * What a keystroke does, and a hover, is done a few times for nobody, on a copy of what was opened, once the findings are out and hands rest: code
 * that has run is compiled, and the first keystrokes are answered as the later ones are.
 */
export async function warmUp(analysis: Analysis, host: Host, pace: Pick<Pace, 'turn'>): Promise<void> {
  const blocks = analysis.tree.chunks.filter(({ chunk }) => SOLVED.has(keywordOf(chunk))).slice(0, MOST_BLOCKS);
  if (blocks.length === 0) return;
  const { uri } = analysis;
  const analyser = createAnalyser();
  const kept = analysis.tree.chunks.filter((each) => !SOLVED.has(keywordOf(each.chunk)) || blocks.includes(each));
  const text = kept.map(({ chunk }) => chunk.text).join('');
  for (let round = 0; round < ROUNDS; round += 1) {
    const typed = blocks.reduce((now, { chunk }) => now.replace(chunk.text, () => typedIn(chunk.text, round)), text);
    const holding = (own: string): Host => ({
      isInside: (each) => host.isInside(each),
      content: (each) => (each === uri ? { kind: 'text', text: own } : host.content(each)),
    });
    const steps = analyser.analysing(uri, holding(typed));
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done) {
        hoverSomewhere(step.value);
        const line = lineTyped(step.value);
        const first = line === undefined ? undefined : analyser.analysing(uri, holding(line), step.value).next();
        if (first?.done === false) first.value?.();
        break;
      }
      step.value?.();
      await pace.turn();
    }
    await pace.turn();
  }
}

/** Over the first fact of a block. */
function hoverSomewhere(analysis: Analysis): void {
  for (const { start } of firstFacts(analysis)) {
    const found = hover(analysis, start);
    if (!found) continue;
    toMarkdown(found.text);
    return;
  }
}

/** The text with a space typed at the end of a line. */
function lineTyped(analysis: Analysis): string | undefined {
  const [fact] = firstFacts(analysis);
  return fact && `${analysis.text.slice(0, fact.end)} ${analysis.text.slice(fact.end)}`;
}

/** Where the first fact of each block lies, of those that are solved. */
function firstFacts({ tree }: Analysis): readonly Span[] {
  return tree.chunks.flatMap(({ chunk, offset }) => {
    const fact = SOLVED.has(keywordOf(chunk)) && chunk.content?.kind === 'block' ? chunk.content.body[0] : undefined;
    return fact?.kind === 'fact' ? [shiftSpan(fact.span, offset)] : [];
  });
}

const SOLVED: ReadonlySet<string> = new Set(['pickup', 'instrument']);
const ROUNDS = 12;
const MOST_BLOCKS = 4;

const keywordOf = ({ content }: Analysis['tree']['chunks'][number]['chunk']): string =>
  content?.kind === 'block' ? content.keyword.text : '';

/** The same in meaning, and another text. */
const typedIn = (text: string, round: number): string => text.replace('{', () => `{${' '.repeat(1 + (round % 2))}`);
