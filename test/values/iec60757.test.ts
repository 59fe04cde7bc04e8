import assert from 'node:assert/strict';
import { COLOUR_CODES, COLOURS, colourOf, colourWords, usualSpelling } from '../../grammar/values/iec60757.ts';

/** IEC 60757, table of letter codes (recalled). */
const STANDARD = {
  black: 'BK',
  brown: 'BN',
  red: 'RD',
  orange: 'OG',
  yellow: 'YE',
  green: 'GN',
  blue: 'BU',
  violet: 'VT',
  grey: 'GY',
  white: 'WH',
  pink: 'PK',
  gold: 'GD',
  turquoise: 'TQ',
  silver: 'SR',
};

describe('IEC 60757 colours', () => {
  for (const [name, code] of Object.entries(STANDARD)) {
    it(`${name} and ${code} are one colour`, () => {
      assert.deepEqual(colourOf(name), { code, names: [name], base: code });
      assert.deepEqual(colourOf(code), colourOf(name));
    });
  }

  it('has the fourteen colours of the standard and no other', () => {
    assert.deepEqual(Object.fromEntries(COLOUR_CODES.map((code) => [COLOURS[code], code])), STANDARD);
  });

  it('reads stripes, base first', () => {
    assert.deepEqual(colourOf('RDBU'), { code: 'RDBU', names: ['red', 'blue'], base: 'RD', stripe: 'BU' });
    assert.deepEqual(colourOf('GNYE'), { code: 'GNYE', names: ['green', 'yellow'], base: 'GN', stripe: 'YE' });
    assert.deepEqual(colourOf('green-and-yellow'), colourOf('GNYE'));
    for (const base of COLOUR_CODES) {
      for (const stripe of COLOUR_CODES) {
        assert.equal(colourOf(base + stripe)?.code, base === stripe ? undefined : base + stripe);
      }
    }
  });

  it('leaves other words alone', () => {
    for (const word of [
      '',
      'bare',
      'drain',
      'vt',
      'XX',
      'VTX',
      'VTXX',
      'red-blue',
      'red-and-',
      'hot',
      'constructor',
      'red-and-blue-and-grey',
    ]) {
      assert.equal(colourOf(word), undefined, word);
    }
  });

  it('knows how a colour is usually spelt', () => {
    assert.equal(usualSpelling('gray'), 'grey');
    assert.equal(usualSpelling('purple'), 'violet');
    assert.equal(usualSpelling('slate'), 'grey');
    assert.equal(usualSpelling('Violet'), 'violet');
    assert.equal(usualSpelling('violet'), undefined);
    assert.equal(usualSpelling('VT'), undefined);
    assert.equal(usualSpelling('shield'), undefined);
  });

  it('says a striped colour in words', () => {
    const striped = colourOf('RDBU');
    assert.ok(striped);
    assert.equal(colourWords(striped), 'red and blue');
  });
});
