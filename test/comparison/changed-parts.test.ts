import assert from 'node:assert/strict';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { changedParts } from '../../server/src/comparison/changed-parts.ts';
import { compareFacts } from '../../server/src/comparison/compare-facts.ts';
import { statedBlocks } from '../../server/src/comparison/stated-blocks.ts';

const BEFORE = `pickup hesk {
  magnet bar north toward screw
  cover none
  coil screw {
    turns 5_000
    start gold to pink
  }
  hookup {
    hot turquoise
    link orange GY
  }
}
`;

const facts = (text: string) => statedBlocks([{ uri: 'file:///a.pickup', tree: readFileTree(text) }]);

function parts(after: string): readonly [before: readonly string[], after: readonly string[]] {
  const { changes } = compareFacts(facts(BEFORE), facts(after));
  return [[...changedParts(changes, 'pickup hesk', 'before')], [...changedParts(changes, 'pickup hesk', 'after')]];
}

describe('parts of a drawing that were changed', () => {
  const cases: readonly (readonly [what: string, from: string, to: string, before: string[], after: string[]])[] = [
    ["a coil's turns", '5_000', '4_900', ['coil:screw'], ['coil:screw']],
    ["the lead of a coil's end", 'gold to pink', 'gold to grey', ['coil:screw.start'], ['coil:screw.start']],
    ['one lead of a link', 'orange GY', 'turquoise grey', ['lead:orange'], ['lead:turquoise']],
    ['a link by an end', 'orange GY', 'orange screw.finish', ['lead:grey'], ['coil:screw.finish']],
    ['the magnet', 'north toward', 'south toward', ['magnet'], ['magnet']],
    ['a cover that came', 'cover none', 'cover brass', ['part:cover'], ['part:cover']],
    ['a lead that came', 'hot turquoise', 'hot turquoise bare', [], ['lead:bare']],
    ['nothing of the drawing', '  cover none', '  cover none\n  serial 7', [], []],
  ];
  for (const [what, from, to, before, after] of cases) {
    it(what, () => assert.deepEqual(parts(BEFORE.replace(from, to)), [before, after]));
  }
});
