import { createAnalyser } from '../analysis/analysis.ts';
import type { Analysis, Host } from '../analysis/analysis-types.ts';
import type { Pace } from './pace.ts';

/**
 * What a keystroke does is done a few times for nobody, on a copy of what was opened, once the findings are out and hands rest: code
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
    for (const early of analyser.analysing(analysis.uri, copy)) {
      early?.();
      await pace.turn();
    }
    await pace.turn();
  }
}

const SOLVED: ReadonlySet<string> = new Set(['pickup', 'instrument']);
const ROUNDS = 12;
const MOST_BLOCKS = 4;

const keywordOf = ({ content }: Analysis['tree']['chunks'][number]['chunk']): string =>
  content?.kind === 'block' ? content.keyword.text : '';

/** The same in meaning, and another text. */
const typedIn = (text: string, round: number): string => text.replace('{', () => `{${' '.repeat(1 + (round % 2))}`);
