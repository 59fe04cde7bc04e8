import assert from 'node:assert/strict';
import { lineMeaning } from '../../grammar/src/line-meaning.ts';
import type { BlockKeyword } from '../../grammar/src/schema/index.ts';
import { lineOf } from '../support/line-of.ts';

function meaning(keyword: BlockKeyword, line: string): readonly string[] {
  const { shape, value } = lineOf(keyword, line);
  return lineMeaning(shape, value);
}

describe('what a line means', () => {
  const same: readonly (readonly [block: BlockKeyword, one: string, other: string])[] = [
    ['target', 'resistance 7.3 kohm', 'resistance 7_300 ohm'],
    ['target', 'resistance 7.3 kohm ± 1 %', 'resistance 7.3 ± 0.073 kohm'],
    ['controls', 'tone 500 kohm with 22 nF', 'tone 500k with 22n'],
    ['bench', 'room 21 degC', 'room 69.8 degF'],
    ['bobbin', 'window 7.1 x 4.4 mm', 'window 0.71 cm x 4.4 mm'],
    ['hookup', 'link grey turquoise', 'link TQ, GY'],
    ['pickup', 'conductors red blue', 'conductors blue RD'],
    ['wire', 'build double', 'build grade 2'],
    ['coil', 'spindle clockwise, top toward it', 'spindle clockwise top toward it'],
    ['coil', 'turns 5_000', 'turns 5000 turns'],
    ['pickup', 'serial 14', 'serial "14"'],
    ['selector', '1 neck parallel bridge series middle', '1 neck parallel (bridge series middle)'],
  ];
  for (const [block, one, other] of same)
    it(`${one} = ${other}`, () => assert.deepEqual(meaning(block, one), meaning(block, other)));

  const different: readonly (readonly [block: BlockKeyword, one: string, other: string])[] = [
    ['target', 'resistance 7.3 kohm', 'resistance 7.3 kohm ± 1 %'],
    ['coil', 'start gold', 'start to gold'],
    ['coil', 'packing 0.6', 'packing 0.6 ± 0.05'],
    ['coil', 'bobbin VT', 'bobbin violet'],
    ['readings', 'kick red to blue approach positive', 'kick blue to red approach positive'],
    ['selector', '1 neck parallel bridge series middle', '1 (neck parallel bridge) series middle'],
  ];
  for (const [block, one, other] of different)
    it(`${one} is not ${other}`, () => assert.notDeepEqual(meaning(block, one), meaning(block, other)));

  it('is one text a piece', () => {
    assert.deepEqual(meaning('pickup', 'coils 18.5 mm apart, screw toward bridge'), [
      '0.0185 [length]',
      'apart',
      'screw',
      'toward',
      'bridge',
    ]);
  });
});
