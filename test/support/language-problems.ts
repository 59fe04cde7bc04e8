import { matchBlock } from '../../grammar/src/match.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { schemas } from '../../grammar/src/schema/index.ts';
import { shiftSpan } from '../../grammar/src/span.ts';
import type { SyntaxProblem } from '../../grammar/src/syntax-problem.ts';
import type { BlockNode, Chunk, FileTree } from '../../grammar/src/syntax-tree.ts';
import { applyEdits } from './text-edits.ts';

const known = new WeakMap<Chunk, readonly SyntaxProblem[]>();

/** Every problem that the language layer has with a file, in the file's offsets and order. A piece is matched once. */
export function languageProblems(tree: FileTree): readonly SyntaxProblem[] {
  const problems = tree.chunks.flatMap(({ offset, chunk }) => {
    const found = known.get(chunk) ?? problemsIn(chunk);
    known.set(chunk, found);
    return found.map((problem) => shifted(problem, offset));
  });
  return problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}

function problemsIn(chunk: Chunk): readonly SyntaxProblem[] {
  const found = [...chunk.problems];
  const read = (block: BlockNode): void => {
    const schema = schemas.get(block.keyword.text);
    if (!schema) return;
    const matched = matchBlock(block, schema);
    found.push(...matched.problems);
    matched.blocks.forEach(read);
  };
  if (chunk.content?.kind === 'block') read(chunk.content);
  return found;
}

export const problemsOf = (text: string): readonly SyntaxProblem[] => languageProblems(readFileTree(text));

/** The text after a problem's fix. */
export function applyFix(text: string, problem: SyntaxProblem | undefined, choice = 0): string {
  return applyEdits(text, problem?.fixes?.[choice]?.edits.map(({ span, newText }) => ({ at: span, newText })) ?? []);
}

function shifted(problem: SyntaxProblem, by: number): SyntaxProblem {
  const { related, fixes } = problem;
  return {
    ...problem,
    span: shiftSpan(problem.span, by),
    ...(related ? { related: related.map((place) => ({ ...place, span: shiftSpan(place.span, by) })) } : {}),
    ...(fixes
      ? {
          fixes: fixes.map((fix) => ({
            ...fix,
            edits: fix.edits.map((edit) => ({ ...edit, span: shiftSpan(edit.span, by) })),
          })),
        }
      : {}),
  };
}
