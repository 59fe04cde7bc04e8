import assert from 'node:assert/strict';
import { namesInLine } from '../../grammar/src/names-in-line.ts';
import type { BlockKeyword } from '../../grammar/src/schema/index.ts';
import { lineOf } from '../support/line-of.ts';

function names(keyword: BlockKeyword, line: string): readonly string[] {
  const { shape, value } = lineOf(keyword, line);
  return namesInLine(shape, value).map(
    ({ kind, parts, role, isPath }) =>
      `${role} ${isPath ? 'path to a ' : ''}${kind} ${parts.map((part) => part.value).join(' . ')}`,
  );
}

describe('the names that a line holds', () => {
  const cases: readonly (readonly [block: BlockKeyword, line: string, ...names: string[]])[] = [
    ['coil', 'bobbin tall-six', 'uses bobbin tall-six'],
    ['coil', 'below screw', 'uses coil screw'],
    ['coil', 'start gold', 'declares lead gold'],
    ['coil', 'start gold to pink', 'inside lead gold', 'uses path to a lead pink'],
    ['coil', 'finish to slug.start', 'uses path to a lead slug . start'],
    ['coil', 'tap 4_000 turns orange', 'declares lead orange'],
    ['coil', 'tap none'],
    ['pickup', 'conductors violet VT', 'declares lead violet', 'declares lead VT'],
    ['pickup', 'magnet bar-5 north toward screw', 'uses magnet bar-5', 'uses coil screw'],
    ['pickup', 'coils 18.5 mm apart, screw toward bridge', 'uses coil screw'],
    ['pickup', 'cover brass tied to baseplate', 'uses path to a lead baseplate'],
    ['pickup', 'note "screw pink"'],
    ['hookup', 'link grey slug.start', 'uses path to a lead grey', 'uses path to a lead slug . start'],
    [
      'readings',
      'kick pink to grey at slug approach positive',
      'uses path to a lead pink',
      'uses path to a lead grey',
      'uses coil slug',
    ],
    ['instrument', 'pickup bridge heron at 42 mm', 'declares slot bridge', 'uses pickup heron'],
    ['controls', 'volume 500 kohm audio for neck', 'uses slot neck'],
    [
      'selector',
      '2 "both" (bridge.slug through 2 kohm series reversed middle) parallel neck',
      'uses path to a slot bridge . slug',
      'uses path to a slot middle',
      'uses path to a slot neck',
    ],
  ];
  for (const [block, line, ...expected] of cases)
    it(`${block}: ${line}`, () => assert.deepEqual(names(block, line), expected));

  it('stand where they are written', () => {
    const { shape, value } = lineOf('coil', 'start gold to slug.start');
    const text = 'coil some-name {\n  start gold to slug.start\n}';
    const at = namesInLine(shape, value).map(({ span }) => text.slice(span.start, span.end));
    assert.deepEqual(at, ['gold', 'slug.start']);
  });
});
