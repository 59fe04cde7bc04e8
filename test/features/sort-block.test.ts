import assert from 'node:assert/strict';
import { sortings } from '../../server/src/features/sort-block.ts';
import { findingLines } from '../support/check-fixture.ts';
import { SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysed } from './analysed.ts';

const sorting = (text: string, head: string) => {
  const at = text.indexOf(head);
  assert.ok(at >= 0);
  return sortings(analysed(text), { start: at, end: at });
};

const codes = (text: string): readonly string[] =>
  findingLines(analysed(text)).map((line) => line.replace(/ at \d+:.*$/s, ''));

/** Resistance and turns, as they are computed. */
const numbers = (text: string) =>
  analysed(text).pickups.map(({ quick }) => [
    JSON.stringify(quick.resistance20COhm),
    [...quick.coils.values()].map((coil) => JSON.stringify(coil)),
  ]);

describe('sorting the lines of a block', () => {
  const head = '    bobbin rod-six\n    wire plain-42\n    turns 7_700\n    wound clockwise\n    packing 0.66\n';
  const mixed = `    # Of the second batch.

    packing 0.66 # by weight
    # Counted twice.
    # By two people.
    turns 7_700
    wire plain-42
    wound clockwise

    bobbin rod-six
`;

  it('they stand as in the reference; comments stay with their lines, empty lines where they are', () => {
    const text = SINGLE.replace(head, mixed);
    const [sort, another] = sorting(text, 'coil main');
    assert.equal(sort?.title, 'Sort the lines of coil main into the order of the language reference');
    assert.equal(another, undefined);
    const after = applyEdits(text, sort?.edits ?? []);
    assert.equal(
      after,
      SINGLE.replace(
        head,
        `    # Of the second batch.

    bobbin rod-six
    wire plain-42
    # Counted twice.
    # By two people.
    turns 7_700
    wound clockwise

    packing 0.66 # by weight
`,
      ),
    );
    assert.deepEqual(codes(after), codes(text));
    assert.deepEqual(numbers(after), numbers(text));
    assert.deepEqual(sorting(after, 'coil main'), []);
  });

  it('in a pickup, inner blocks change places among themselves, and coils stay in their order', () => {
    const coil = SINGLE.slice(SINGLE.indexOf('  coil main'), SINGLE.indexOf('  cover none'));
    const hookup = SINGLE.slice(SINGLE.indexOf('  hookup {'), SINGLE.lastIndexOf('}'));
    const text = SINGLE.replace(hookup, '')
      .replace(coil, hookup + coil)
      .replace('  strings 6\n', '')
      .replace('  cover none\n', '  cover none\n  strings 6\n');
    const [sort] = sorting(text, 'pickup wren');
    const after = applyEdits(text, sort?.edits ?? []);
    assert.deepEqual(
      [...after.matchAll(/^ {2}(\w+)/gm)].map(([, word]) => word),
      ['coil', 'hookup', 'strings', 'cover'],
    );
    assert.deepEqual(codes(after), codes(text));
    assert.deepEqual(numbers(after), numbers(text));
  });

  it('lines that repeat keep their order', () => {
    const text = SINGLE.replace('start grey', 'notes "b"\n    notes "a"\n    start grey');
    const [sort] = sorting(text, 'coil main');
    assert.match(applyEdits(text, sort?.edits ?? []), /finish violet\n {4}notes "b"\n {4}notes "a"\n {2}\}/);
  });

  it('other kinds of line end stay', () => {
    const text = SINGLE.replace(head, mixed).replaceAll('\n', '\r\n');
    const [sort] = sorting(text, 'coil main');
    const after = applyEdits(text, sort?.edits ?? []);
    assert.match(after, /\r\n {4}bobbin rod-six\r\n {4}wire plain-42\r\n {4}# Counted twice\.\r\n/);
    assert.doesNotMatch(after, /[^\r]\n/);
  });

  it('nothing is offered where they stand so, elsewhere than in the first line, or where two lines are one', () => {
    assert.deepEqual(sorting(SINGLE, 'coil main'), []);
    assert.deepEqual(sorting(SINGLE, 'pickup wren'), []);
    const text = SINGLE.replace(head, mixed);
    assert.deepEqual(sorting(text, 'turns'), []);
    assert.deepEqual(sorting(text, 'pickup wren'), []);
    assert.deepEqual(sorting(SINGLE.replace(head, mixed.replace('7_700\n    wire', '7_700; wire')), 'coil main'), []);
  });
});
