import type { BlockSchema, FactSchema } from '../../../grammar/src/schema/block-schema.ts';
import { schemas } from '../../../grammar/src/schema/index.ts';
import type { BlockNode, FactNode } from '../../../grammar/src/syntax-tree.ts';

export const schemaOf = (block: BlockNode): BlockSchema | undefined => schemas.get(block.keyword.text);

/** The fact of a line by its first word; a line that starts with a lead or a number is the block's wordless fact. */
export function factSchemaOf(block: BlockNode, fact: FactNode): FactSchema | undefined {
  const facts = Object.values(schemaOf(block)?.facts ?? {});
  const first = fact.items[0]?.text;
  return facts.find(({ word }) => word !== undefined && word === first) ?? facts.find(({ word }) => word === undefined);
}
