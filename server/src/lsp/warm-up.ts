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
  const analyser = createAnalyser();
  const kept = analysis.tree.chunks.filter((each) => !SOLVED.has(keywordOf(each.chunk)) || blocks.includes(each));
  const text = kept.map(({ chunk }) => chunk.text).join('');
  for (let round = 0; round < ROUNDS; round += 1) {
    const typed = blocks.reduce((now, { chunk }) => now.replace(chunk.text, () => typedIn(chunk.text, round)), text);
    const copy: Host = {
      isInside: (uri) => host.isInside(uri),
      content: (uri) => (uri === analysis.uri ? { kind: 'text', text: typed } : host.content(uri)),
    };
    const steps = analyser.analysing(analysis.uri, copy);
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done) {
        hoverSomewhere(step.value);
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
  for (const { chunk, offset } of analysis.tree.chunks) {
    const fact = SOLVED.has(keywordOf(chunk)) && chunk.content?.kind === 'block' ? chunk.content.body[0] : undefined;
    const found = fact && hover(analysis, offset + fact.span.start);
    if (!found) continue;
    toMarkdown(found.text);
    return;
  }
}

const SOLVED: ReadonlySet<string> = new Set(['pickup', 'instrument']);
const ROUNDS = 12;
const MOST_BLOCKS = 4;

const keywordOf = ({ content }: Analysis['tree']['chunks'][number]['chunk']): string =>
  content?.kind === 'block' ? content.keyword.text : '';

/** The same in meaning, and another text. */
const typedIn = (text: string, round: number): string => text.replace('{', () => `{${' '.repeat(1 + (round % 2))}`);
