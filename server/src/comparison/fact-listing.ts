/** Every fact of a file on a line of its own, its blocks before it: what a line-by-line difference shows is then a change of meaning. */
import type { FileTree } from '../../../grammar/src/syntax-tree.ts';
import { type StatedBlock, statedBlocks } from './stated-blocks.ts';

export function factListing(tree: FileTree): string {
  const lines = statedBlocks([{ uri: '', tree }]).flatMap((block) => listing(block, ''));
  return lines.map((line) => `${line}\n`).join('');
}

/** Sorted, so that moving a line or a block is no difference. */
function listing(block: StatedBlock, above: string): readonly string[] {
  const here = `${above}${block.label}`;
  const own = block.facts.filter(({ inherited }) => !inherited).map(({ text }) => `${here}: ${text}`);
  return [here, ...own.sort(), ...block.blocks.flatMap((inner) => listing(inner, `${here} / `))];
}
