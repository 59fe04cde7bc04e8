/** Lines at the end of a block of this file, where a person would write them. */
import type { BlockNode, Chunk } from '../../../grammar/src/syntax-tree.ts';
import type { Edit } from '../checks/finding.ts';
import type { OwnPickup } from './own-blocks.ts';

/** At the end of the newest readings of the pickup as it is, or in readings of their own. */
export function insertReadings({ placed, block }: OwnPickup, lines: readonly string[]): Edit | undefined {
  const taken = block.body.flatMap((each) =>
    each.kind === 'block' && each.keyword.text === 'readings' && each.head.every(({ text }) => text !== 'found')
      ? [each]
      : [],
  );
  const last = taken.at(-1);
  if (last) return insertLines(placed.chunk, last, lines);
  return insertLines(placed.chunk, block, ['readings {', ...lines.map((line) => `  ${line}`), '}']);
}

/**
 * Before the closing brace, at the very start of its line: an editor that indents what it inserts as the line around it then
 * leaves these as they are. Behind the last fact where the block stands on one line.
 */
export function insertLines(chunk: Chunk, block: BlockNode, lines: readonly string[]): Edit | undefined {
  if (block.open === undefined || block.close === undefined) return undefined;
  const { text } = chunk;
  const lineStart = text.lastIndexOf('\n', block.close.start - 1) + 1;
  const indent = text.slice(lineStart, block.close.start);
  if (/^[ \t]*$/.test(indent)) return insertion(chunk, lineStart, lines.map((line) => `${indent}  ${line}\n`).join(''));
  if (lines.some((line) => line.endsWith('{'))) return undefined;
  const last = block.body.at(-1);
  return last
    ? insertion(chunk, last.span.end, lines.map((line) => `; ${line}`).join(''))
    : insertion(chunk, block.open.end, ` ${lines.join('; ')}`);
}

const insertion = (chunk: Chunk, at: number, newText: string): Edit => ({
  place: { chunk, span: { start: at, end: at } },
  newText,
});
