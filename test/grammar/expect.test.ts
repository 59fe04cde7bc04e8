import assert from 'node:assert/strict';
import { type Expectation, expectedAt } from '../../grammar/src/expect.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { readCursor } from '../support/marked-text.ts';

function expected(marked: string): Expectation {
  const { text, offset } = readCursor(marked);
  const placed = readFileTree(text).chunks.findLast((chunk) => chunk.offset <= offset);
  assert.ok(placed);
  return expectedAt(placed.chunk, offset - placed.offset);
}

const inCoil = (line: string): Expectation => expected(`pickup p {\n  coil a {\n    ${line}\n  }\n}\n`);
const inSelector = (line: string): Expectation => expected(`instrument i {\n  selector {\n    ${line}\n  }\n}\n`);
const activePart = ({ pattern }: Expectation): string | undefined => {
  const part = pattern?.active === undefined ? undefined : pattern.parts[pattern.active];
  return part && pattern?.text.slice(part.span.start, part.span.end);
};

describe('what may stand at a place', () => {
  it('outside of blocks: top-level blocks and use', () => {
    for (const text of ['‸', 'wi‸', 'wire a {\n}\n‸', 'use "a"\n‸']) {
      const { place, blockKinds, words } = expected(text);
      assert.equal(place, 'top', text);
      assert.deepEqual(
        blockKinds.map(({ keyword }) => keyword),
        ['bench', 'wire', 'spool', 'bobbin', 'magnet', 'switch', 'pickup', 'instrument'],
      );
      assert.deepEqual(words, ['use']);
    }
  });

  it('at the beginning of a line: facts, those stated already marked, and blocks', () => {
    const { place, facts, blockKinds } = expected('pickup p {\n  strings 6\n  ‸\n  coil a {\n  }\n}');
    assert.equal(place, 'body');
    assert.ok(facts.find(({ field }) => field === 'strings')?.stated);
    assert.ok(!facts.find(({ field }) => field === 'note')?.stated);
    assert.ok(!facts.find(({ field }) => field === 'made')?.stated);
    assert.deepEqual(
      blockKinds.map(({ keyword }) => keyword),
      ['coil', 'hookup', 'readings', 'potting', 'target'],
    );
  });

  it('marks a fact as stated that another stands instead of', () => {
    const { facts } = inCoil('wire a\n    ‸');
    assert.ok(facts.find(({ field }) => field === 'spool')?.stated);
  });

  it('does not count the line being typed as stated', () => {
    assert.ok(!inCoil('turn‸s').facts.find(({ field }) => field === 'turns')?.stated);
  });

  it('words of a fact', () => {
    assert.deepEqual(inCoil('wound ‸').words, ['clockwise', 'counterclockwise']);
    assert.deepEqual(inCoil('spindle clockwise, ‸').words, ['top', 'bottom']);
    assert.deepEqual(inCoil('serves ‸').words, ['none', 'strings']);
  });

  it('names, and what kind of thing they name', () => {
    assert.deepEqual(inCoil('bobbin ‸').names, [{ of: 'bobbin', declares: false, path: false }]);
    assert.deepEqual(inCoil('start yellow to ‸').names, [{ of: 'lead', declares: false, path: true }]);
    const { names, words } = inCoil('start ‸');
    assert.deepEqual([names.map(({ of }) => of), words], [['lead'], ['to']]);
  });

  it('units behind a number, and units alone replace what is typed of them', () => {
    assert.deepEqual(inCoil('traverse 0.1 ‸').units, ['length']);
    const glued = inCoil('traverse 0.1m‸');
    assert.deepEqual(glued.replace, { start: glued.replace.end - 1, end: glued.replace.end });
  });

  it('parts of a selector position', () => {
    assert.deepEqual(inSelector('1 "a" ‸').names, [{ of: 'slot', declares: false, path: true }]);
    assert.deepEqual(inSelector('1 "a" neck ‸').words, ['through', 'series', 'parallel', 'at', 'on']);
    assert.deepEqual(inSelector('1 "a" neck parallel ‸').words, ['reversed']);
    assert.equal(inSelector('1 "a" neck parallel br‸').qualifier, undefined);
    assert.equal(inSelector('1 "a" neck.sl‸').qualifier, 'neck');
    assert.equal(inSelector('1 "a" neck.‸').qualifier, 'neck');
  });

  it('goes on with a line that is bound to go on', () => {
    const { place, names } = inSelector('1 "a" neck parallel\n    ‸');
    assert.deepEqual([place, names.map(({ of }) => of)], ['fact', ['slot']]);
  });

  it('in a head: the name, a title, like and the blocks it may be made from', () => {
    assert.deepEqual(expected('bobbin ‸ {\n}').names, [{ of: 'bobbin', declares: true, path: false }]);
    assert.deepEqual(expected('bobbin a ‸ {\n}').words, ['like']);
    assert.deepEqual(expected('bobbin a like ‸ {\n}').names, [{ of: 'bobbin', declares: false, path: false }]);
    assert.equal(expected('bobbin a like ‸ {\n}').place, 'head');
  });

  it('nothing in a comment or a text, a path behind use', () => {
    assert.equal(inCoil('turns 5 # ‸').place, 'none');
    assert.equal(expected('pickup p {\n  note "a ‸"\n}').place, 'none');
    assert.equal(expected('use "‸"').place, 'use');
  });

  it('prints the pattern of the line with the part that is next', () => {
    const half = expected('pickup p {\n  magnet bar-5 north ‸\n}');
    assert.equal(half.pattern?.text, 'magnet <magnet> north|south toward <coil> [, kept|turned|new]');
    assert.equal(activePart(half), 'toward');
    assert.equal(activePart(expected('pickup p {\n  magnet ‸\n}')), '<magnet>');
    assert.equal(activePart(expected('pickup p {\n  magnet bar-5 north toward ‸\n}')), '<coil>');
    assert.equal(activePart(expected('bobbin b {\n  window 7.2 x ‸\n}')), '<height x depth>');
  });

  it('expects nothing behind a mistake earlier in the line', () => {
    const { words, names, units } = inCoil('wound sideways ‸');
    assert.deepEqual([words, names, units], [[], [], []]);
  });
});
