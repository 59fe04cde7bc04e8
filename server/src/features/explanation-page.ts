import { colouredRuns, type Run } from '../../../grammar/src/coloured-text.ts';
import { explanationOf } from '../checks/explanation.ts';
import { codes, isCode } from '../checks/pages.ts';

/** The page of a finding, cut into what is shown in its own way each. */
export interface ExplanationPage {
  readonly code: string;
  /** The severity in a word, and what it is about in a sentence. */
  readonly summary: string;
  readonly sections: readonly ExplanationSection[];
  /** The codes before and after it, around in a circle. */
  readonly previous: string;
  readonly next: string;
}

export interface ExplanationSection {
  readonly heading: string;
  readonly blocks: readonly ExplanationBlock[];
}

export type ExplanationBlock =
  | { readonly kind: 'paragraph' | 'point'; readonly text: string }
  | { readonly kind: 'example'; readonly runs: readonly Run[] };

/** `undefined` where no finding has that code. */
export function explanationPage(code: string): ExplanationPage | undefined {
  if (!isCode(code)) return undefined;
  const [title = '', ...sections] = (explanationOf(code) ?? '').split(/^## /m);
  const at = codes.indexOf(code);
  const beside = (step: number): string => codes.at((at + step) % codes.length) ?? code;
  return {
    code,
    summary: title.replace(/^# .*\n/, '').trim(),
    sections: sections.map((section) => {
      const [heading = '', ...lines] = section.split('\n');
      return { heading: heading.trim(), blocks: blocksOf(lines.join('\n')) };
    }),
    previous: beside(-1),
    next: beside(1),
  };
}

const EXAMPLE = /^```pickup\n([\s\S]*?)\n```$/m;

/** Fenced examples in between; outside of them a paragraph or a point of a list between empty lines or line by line. */
function blocksOf(markdown: string): readonly ExplanationBlock[] {
  // Splitting by a pattern with a group yields text and example in turn.
  return markdown.split(new RegExp(EXAMPLE, 'gm')).flatMap((piece, index) => {
    if (index % 2 === 1) return [{ kind: 'example' as const, runs: colouredRuns(piece) }];
    return piece
      .split(/\n{2,}|\n(?=- )/)
      .map((text) => text.trim())
      .filter((text) => text !== '')
      .map(
        (text): ExplanationBlock =>
          text.startsWith('- ') ? { kind: 'point', text: text.slice(2) } : { kind: 'paragraph', text },
      );
  });
}
