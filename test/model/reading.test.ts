/** Lines as the model holds them: the values beside the places that they are written at. */
import assert from 'node:assert/strict';
import type { BlockSchema } from '../../grammar/src/schema/block-schema.ts';
import { type BlockKeyword, language } from '../../grammar/src/schema/index.ts';
import { type AnyBlock, factsOf, innerBlocks, type MergedBlock } from '../../server/src/model/merged-block.ts';
import type { Place } from '../../server/src/model/place.ts';
import { readFact } from '../../server/src/model/reading.ts';
import { blockWith } from '../support/line-of.ts';

/** The block of a kind, as the resolver holds it: its facts typed by the schema of the kind. */
const asBlock = <B extends BlockSchema>(block: AnyBlock, _schema: B): MergedBlock<B> =>
  block as unknown as MergedBlock<B>;

const textAt = ({ chunk, span }: Place): string => chunk.text.slice(span.start, span.end);

/** The value with each place shown as the text that stands there, each quantity as its value in SI. */
function shown(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(shown);
  if (typeof value !== 'object' || value === null) return value;
  if ('si' in value) return value.si;
  if ('chunk' in value) return `at: ${textAt(value as Place)}`;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shown(inner)]));
}

function read(keyword: BlockKeyword, field: string, line: string): unknown {
  const [stated] = readFact(blockWith(keyword, line), field);
  assert.ok(stated);
  assert.equal(textAt(stated.place), line);
  return shown(stated.value);
}

describe('a line reads into', () => {
  it('a quantity in SI, a count, a word, a text', () => {
    assert.equal(read('target', 'resistance', 'resistance 7.3 kohm'), 7300);
    assert.equal(read('coil', 'turns', 'turns 4_900'), 4900);
    assert.equal(read('pickup', 'strings', 'strings 6'), 6);
    assert.equal(read('coil', 'wound', 'wound clockwise'), 'clockwise');
    assert.equal(read('pickup', 'made', 'made 2026-10-02'), '2026-10-02');
  });
  it('its one thing, where the rest are words between', () => {
    assert.deepEqual(read('bobbin', 'poles', 'poles 6 spread 50 mm'), { count: 6, spread: 0.05 });
    assert.deepEqual(read('coil', 'spindle', 'spindle clockwise, top toward it'), {
      rotation: 'clockwise',
      towardIt: 'top',
    });
  });
  it('its parts by name, what is left out as nothing', () => {
    assert.deepEqual(read('pickup', 'cable', 'cable 0.3 m braid'), {
      length: 0.3,
      capacitancePerLength: undefined,
      kind: 'braid',
    });
    assert.deepEqual(read('magnet', 'size', 'size 60 x 12 x 3 mm'), { length: 0.06, width: 0.012, thickness: 0.003 });
  });
  it('a name at its own place, a path with its parts', () => {
    assert.deepEqual(read('coil', 'bobbin', 'bobbin tall-six'), { value: 'tall-six', place: 'at: tall-six' });
    assert.deepEqual(read('hookup', 'ground', 'ground pink slug.start'), [
      { parts: ['pink'], text: 'pink', place: 'at: pink' },
      { parts: ['slug', 'start'], text: 'slug.start', place: 'at: slug.start' },
    ]);
  });
  it('whichever option is written', () => {
    assert.equal(read('coil', 'tap', 'tap none'), 'none');
    assert.deepEqual(read('coil', 'tap', 'tap 4_000 turns orange'), {
      turns: 4000,
      lead: { value: 'orange', place: 'at: orange' },
    });
    assert.equal(read('wire', 'build', 'build grade 2'), 'double');
  });
  it('list elements of several parts, each at its own place', () => {
    assert.deepEqual(read('potting', 'wax', 'wax paraffin 80 % beeswax 20 %'), [
      { value: { ingredient: 'paraffin', share: 0.8 }, place: 'at: paraffin 80 %' },
      { value: { ingredient: 'beeswax', share: 0.2 }, place: 'at: beeswax 20 %' },
    ]);
  });
});

describe('a block reads into', () => {
  it('its facts by field, typed by the schema', () => {
    const coil = asBlock(blockWith('coil', 'turns 4_900', 'wound clockwise', 'note "a"', 'note "b"'), language.coil);
    const { turns, wound, notes, tension } = factsOf(coil);
    const rotation: 'clockwise' | 'counterclockwise' | undefined = wound?.value;
    assert.deepEqual(
      [turns?.value.si, rotation, notes.map(({ value }) => value), tension],
      [4900, 'clockwise', ['a', 'b'], undefined],
    );
  });
  it('the blocks inside by kind, every kind that may stand there', () => {
    const pickup = asBlock(blockWith('pickup', 'coil a {', '}', 'coil b {', '}', 'hookup {', '}'), language.pickup);
    const { coil, hookup, ...others } = innerBlocks(pickup);
    assert.deepEqual([coil.map(({ name }) => name), hookup.length], [['a', 'b'], 1]);
    assert.deepEqual(others, { readings: [], potting: [], target: [] });
  });
});
