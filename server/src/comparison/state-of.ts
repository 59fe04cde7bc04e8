import { readFileTree } from '../../../grammar/src/read-file.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { State } from './comparison.ts';
import { limitedTo } from './limited-analysis.ts';
import { type StatedBlock, type StateFile, statedBlocks } from './stated-blocks.ts';

/** An analysed file and all that it uses, as comparing needs them. */
export const stateOf = (analysis: Analysis): State => ({ analysis, blocks: statedBlocks(filesOf(analysis)) });

/** One pickup alone, with the shop's parts that it names. `undefined` where the file has none of that name. */
export function pickupState(analysis: Analysis, name: string): State | undefined {
  const pickup = analysis.pickups.find((each) => each.pickup.name === name);
  return pickup && { analysis: limitedTo(analysis, [pickup], []), blocks: pickupBlocks(analysis, [name]) };
}

/** Some pickups alone, with the shop's parts that they name. */
export const pickupBlocks = (analysis: Analysis, names: readonly string[]): readonly StatedBlock[] =>
  statedBlocks(filesOf(analysis), names);

function filesOf(analysis: Analysis): readonly StateFile[] {
  return analysis.uris.flatMap((uri) => {
    if (uri === analysis.uri) return [{ uri, tree: analysis.tree }];
    const text = analysis.textOf(uri);
    return text === undefined ? [] : [{ uri, tree: readFileTree(text) }];
  });
}
