import assert from 'node:assert/strict';
import { unbroken } from '../../server/src/words/unbroken.ts';

const shown = (text: string): string => unbroken(text).replaceAll('\u00A0', '~');

describe('quantities that stay on one line', () => {
  it('a number with its unit, its uncertainty, and both sides of a size', () => {
    assert.equal(shown('reads 4.03 kohm at 21 degC'), 'reads 4.03~kohm at 21~degC');
    assert.equal(shown('turns 8_200 ± 20, and more'), 'turns 8_200~±~20, and more');
    assert.equal(shown('core 63.0 x 5.6 mm'), 'core 63.0~x~5.6~mm');
    assert.equal(shown('with 10 % spare, 4 µF'), 'with 10~% spare, 4~µF');
  });

  it('words around it may part', () => {
    assert.equal(shown('position 2, then the coil'), 'position 2, then the coil');
    assert.equal(shown('no number here'), 'no number here');
  });
});
