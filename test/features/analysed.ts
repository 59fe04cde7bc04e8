import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import type { FileMentions } from '../../server/src/analysis/file-mentions.ts';
import { analyser, FOLDER, hostOf } from '../support/check-fixture.ts';
import { readCursor } from '../support/marked-text.ts';
import { PARTS } from '../support/shop.ts';

export const MAIN = `${FOLDER}main.pickup`;
const FILES: Readonly<Record<string, string>> = { 'parts.pickup': PARTS };

export interface AtCursor {
  readonly analysis: Analysis;
  readonly offset: number;
  readonly text: string;
}

/** Analyses a text in the shop; `‸` marks the cursor and is taken out. */
export function atCursor(marked: string, files: Readonly<Record<string, string>> = {}): AtCursor {
  const { text, offset } = readCursor(marked);
  return { analysis: analysed(text, files), offset, text };
}

export function analysed(text: string, files: Readonly<Record<string, string>> = {}): Analysis {
  return analyser.analyse(MAIN, hostOf({ ...FILES, ...files, 'main.pickup': text }));
}

/** Several files of the shop by one analyser, as a server has them. */
export function analysedAll(files: Readonly<Record<string, string>>): Readonly<Record<string, Analysis>> {
  const analyser = createAnalyser();
  const all = { ...FILES, ...files };
  const host = hostOf(all);
  return Object.fromEntries(Object.keys(all).map((name) => [name, analyser.analyse(FOLDER + name, host)]));
}

/** What each file of the shop says of its names. */
export function mentionsOfAll(files: Readonly<Record<string, string>> = {}): readonly FileMentions[] {
  const analyser = createAnalyser();
  const all = { ...FILES, ...files };
  return Object.keys(all).map((name) => analyser.mentions(FOLDER + name, hostOf(all)));
}

/** Every prefix of a text, and the text without each of its lines: what a writer's file looks like on the way. */
export function* halfTyped(text: string): Generator<string> {
  for (let end = 0; end <= text.length; end += 1) yield text.slice(0, end);
  const lines = text.split('\n');
  for (const [index] of lines.entries()) yield lines.filter((_, each) => each !== index).join('\n');
}
