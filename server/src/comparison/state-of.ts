import { readFileTree } from '../../../grammar/src/read-file.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { State } from './comparison.ts';

/** An analysed file with the trees of all that it uses, as comparing needs them. */
export function stateOf(analysis: Analysis): State {
  const files = analysis.uris.flatMap((uri) => {
    if (uri === analysis.uri) return [{ uri, tree: analysis.tree }];
    const text = analysis.textOf(uri);
    return text === undefined ? [] : [{ uri, tree: readFileTree(text) }];
  });
  return { analysis, files };
}
