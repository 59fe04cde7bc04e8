import assert from 'node:assert/strict';
import { unitOf } from '../../grammar/values/unit-table.ts';
import { convertedNumber, unitConversions } from '../../server/src/features/convert-unit.ts';
import { findingLines } from '../support/check-fixture.ts';
import { SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysed, atCursor } from './analysed.ts';

const converted = (number: string, from: string, to: string): string => {
  const [here, there] = [unitOf(from), unitOf(to)];
  assert.ok(here && there);
  return convertedNumber(number, here, there);
};

describe('a number in another unit', () => {
  // The inch is 25.4 mm exactly (NIST SP 811, appendix B.8); the rest of the exact ones are powers of ten.
  const exact: readonly (readonly [string, string, string, string])[] = [
    ['1.000', 'in', '25.40', 'mm'],
    ['0.250', 'in', '6.35', 'mm'],
    ['2.5', 'thou', '64', 'um'],
    ['63.5', 'mm', '2.50', 'in'],
    ['5.863', 'kohm', '5863', 'ohm'],
    ['5_860', 'ohm', '5.860', 'kohm'],
    ['5.86', 'kohm', '5860', 'ohm'],
    ['2.31', 'H', '2310', 'mH'],
    ['22', 'nF', '22_000', 'pF'],
    ['47', 'nF', '0.047', 'uF'],
    ['720', 'mT', '7200', 'G'],
    ['90', 'min', '1.5', 'h'],
  ];
  for (const [from, unit, to, other] of exact)
    it(`${from} ${unit} is ${to} ${other}`, () => {
      assert.equal(converted(from, unit, other), to);
    });

  // Fixed points of the scales (NIST SP 811, B.8): water freezes at 32 degF and boils at 212 degF, 0 degC is 273.15 K.
  for (const [celsius, fahrenheit] of [
    ['0', '32'],
    ['100', '212'],
    ['20', '68'],
    ['-40', '-40'],
    ['21.0', '69.8'],
  ] as const)
    it(`${celsius} degC is ${fahrenheit} degF`, () => {
      assert.equal(converted(celsius, 'degC', 'degF'), fahrenheit);
      assert.equal(converted(fahrenheit, 'degF', 'degC'), celsius);
    });

  it('converted back, every number is the one that was typed', () => {
    for (let thousandths = 1; thousandths < 3000; thousandths += 7)
      for (const [one, other] of [
        ['mm', 'in'],
        ['mm', 'thou'],
        ['degC', 'degF'],
        ['kA/m', 'Oe'],
      ] as const) {
        const typed = (thousandths / 100).toFixed(2);
        const there = converted(typed, one, other);
        assert.equal(Number(converted(there, other, one)).toFixed(2), typed, `${typed} ${one}, ${there} ${other}`);
      }
  });
});

describe('converting the unit of a value', () => {
  const spec = (line: string): string =>
    SINGLE.replace('  hookup {', `  readings "as received" 2026-03-02 {\n    ${line}\n  }\n  hookup {`);

  const offered = (marked: string): readonly (readonly [title: string, line: string])[] => {
    const { analysis, offset, text } = atCursor(marked);
    return unitConversions(analysis, { start: offset, end: offset }).map(({ title, edits }) => {
      const after = applyEdits(text, edits);
      const told = (of: string) => findingLines(analysed(of)).map((line) => line.replace(/ at \d+:.*$/s, ''));
      assert.deepEqual(told(after), told(text));
      const [, line = ''] = /readings .*\n\s*(.*)/.exec(after) ?? [];
      return [title, line];
    });
  };

  it('a reading goes from kohm to ohm; its temperature stays', () => {
    assert.deepEqual(offered(spec('main 5.8‸63 kohm at 20 degC')), [
      ['Write 5.863 kohm as 5863 ohm', 'main 5863 ohm at 20 degC'],
    ]);
  });

  it('the ± goes along, whichever of the two the unit stands behind', () => {
    assert.deepEqual(offered(spec('main 5.8‸6 kohm ± 0.02 at 20 degC')), [
      ['Write 5.86 kohm ± 0.02 as 5860 ohm ± 20', 'main 5860 ohm ± 20 at 20 degC'],
    ]);
    assert.deepEqual(offered(spec('main 5.8‸6 ± 0.02 kohm at 20 degC')), [
      ['Write 5.86 ± 0.02 kohm as 5860 ± 20 ohm', 'main 5860 ± 20 ohm at 20 degC'],
    ]);
  });

  it('a ± in percent is one still', () => {
    assert.deepEqual(offered(spec('main 5.8‸6 kohm ± 1 % at 20 degC')), [
      ['Write 5.86 kohm ± 1 % as 5860 ohm ± 1 %', 'main 5860 ohm ± 1 % at 20 degC'],
    ]);
  });

  it('a code becomes a number with its unit', () => {
    assert.deepEqual(offered(spec('main 5k‸86 at 20 degC')), [
      ['Write 5k86 as 5.86 kohm', 'main 5.86 kohm at 20 degC'],
      ['Write 5k86 as 5860 ohm', 'main 5860 ohm at 20 degC'],
    ]);
  });

  it('the temperature of a reading, each in its own scale', () => {
    assert.deepEqual(offered(spec('main 5.86 kohm at 20 deg‸C')), [
      ['Write 20 degC as 68 degF', 'main 5.86 kohm at 68 degF'],
      ['Write 20 degC as 293 K', 'main 5.86 kohm at 293 K'],
    ]);
  });

  it('a size as a whole; one digit more where the number would be another one when it is converted back (0.20 in: 5.1 mm)', () => {
    const bobbin = 'bobbin other {\n  core 63.‸5 x 5.0 mm\n  window 11.0 x 5.2 mm\n}\n';
    const { analysis, offset, text } = atCursor(`${bobbin}${SINGLE}`);
    const inches = unitConversions(analysis, { start: offset, end: offset }).find(({ title }) => / in$/.test(title));
    assert.equal(inches?.title, 'Write 63.5 x 5.0 mm as 2.50 x 0.197 in');
    assert.match(applyEdits(text, inches?.edits ?? []), /\n {2}core 2\.50 x 0\.197 in\n/);
  });

  it('nothing is offered where no value with another unit stands', () => {
    assert.deepEqual(offered(spec('ma‸in 5.86 kohm at 20 degC')), []);
    for (const place of ['turns 7_700', 'strings 6', 'wound clockwise', 'pickup wren', 'use "parts'])
      assert.deepEqual(offered(SINGLE.replace(place, `${place.slice(0, -1)}‸${place.slice(-1)}`)), [], place);
  });
});
