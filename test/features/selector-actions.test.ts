/** The selector written from the wiring: offered at its head and at the wiring's, and each line of it does what it says once it is written. */
import assert from 'node:assert/strict';
import { editedText } from '../../grammar/src/edited-text.ts';
import { wiredStates } from '../../server/src/estimates/switch-states.ts';
import { selectorActions } from '../../server/src/features/selector-actions.ts';
import { analyse } from '../support/check-fixture.ts';
import { single } from '../support/shop.ts';

const SPLIT = `pickup heron {
  conductors violet grey turquoise pink
  coil slug {
    turns 5_000
    wound clockwise
    polarity south-up
    start to grey
    finish to violet
  }
  coil screw like slug {
    polarity north-up
    start to turquoise
    finish to pink
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
`;
const SWITCHES = `switch pull-one {
  detent down joins a0 a1
  detent up joins a0 a2
}
switch three {
  pole a0 to a1 a2 a3
}
`;

const instrument = (
  switches: string,
  wiring: readonly string[],
  rest = '',
) => `${SPLIT}${single('wren')}${SWITCHES}instrument juniper {
  pickup bridge heron
  pickup neck wren
${switches}
  wiring {
${wiring.map((line) => `    ${line}\n`).join('')}  }
${rest}}
`;

/** What is offered at the line that begins so, and the file with the only offer taken. */
function offered(text: string, line: string) {
  const analysis = analyse(text);
  const at = text.indexOf(`\n${line}`) + 1 + line.length;
  const offers = selectorActions(analysis, { start: at, end: at });
  const [only] = offers;
  const edits = (only?.edits ?? []).map(({ at: { start, end }, newText }) => ({ start, end, newText }));
  return { titles: offers.map(({ title }) => title), after: editedText(text, edits) ?? '' };
}

const selectorIn = (text: string) =>
  /selector \{\n([\s\S]*?)\n {2}\}/
    .exec(text)?.[1]
    ?.split('\n')
    .map((line) => line.trim());

const verdicts = (text: string) => {
  const [juniper] = analyse(text).model.instruments;
  return juniper && wiredStates(juniper)?.positions.map(({ verdict }) => verdict);
};

const LEVER = [
  'hot lever.a0',
  'link bridge.violet lever.a1',
  'link neck.violet lever.a3',
  'ground bridge.pink neck.grey',
];

describe('the selector from the wiring', () => {
  it('of two switches says where each stands that is not in its first detent; a split through a resistor has its word', () => {
    const text = instrument('  switch lever three\n  switch pull pull-one', [
      ...LEVER,
      'link lever.a2 neck.violet',
      'link bridge.grey pull.a0',
      'resistor 4.7 kohm pull.a2 to ground',
    ]);
    const { titles, after } = offered(text, '  wiring {');
    assert.deepEqual(titles, ['Write the selector from the wiring: 6 positions']);
    assert.deepEqual(selectorIn(after), [
      '1 bridge',
      '2 bridge.slug through 4.7 kohm, at pull up',
      '3 neck, at lever 2',
      '4 neck, at lever 2 pull up',
      '5 neck, at lever 3',
      '6 neck, at lever 3 pull up',
    ]);
    assert.deepEqual(
      verdicts(after),
      Array.from({ length: 6 }, () => 'as asked'),
    );
  });

  it('of one switch numbers by its detents; where one of them is silent, each line says its detent', () => {
    const text = instrument('  switch lever three', LEVER, '  selector {\n  }\n');
    const { after } = offered(text, '  selector {');
    assert.deepEqual(selectorIn(after), ['1 bridge, at lever 1', '2 neck, at lever 3']);
    const all = instrument(
      '  switch lever three',
      [...LEVER, 'link lever.a2 neck.violet bridge.violet'],
      '  selector {\n  }\n',
    );
    assert.deepEqual(selectorIn(offered(all, '  selector {').after), [
      '1 neck parallel bridge',
      '2 neck parallel bridge',
      '3 neck parallel bridge',
    ]);
  });

  it('adds the states that no position names, behind what stands there', () => {
    const text = instrument(
      '  switch lever three',
      [...LEVER, 'link lever.a2 neck.violet'],
      '  selector {\n    1 "bridge" bridge # as found\n  }\n',
    );
    const { titles, after } = offered(text, '  selector {');
    assert.deepEqual(titles, ['Add what the selector leaves out of the wiring: positions 2, 3']);
    assert.deepEqual(selectorIn(after), ['1 "bridge" bridge # as found', '2 neck', '3 neck']);
    assert.deepEqual(offered(after, '  selector {').titles, []);
  });

  it('says at a position what is wired, where it says something else', () => {
    const text = instrument(
      '  switch lever three',
      LEVER,
      '  selector {\n    1 "both" neck parallel bridge, at lever 1\n    2 neck, at lever 3\n  }\n',
    );
    const { titles, after } = offered(text, '    1 "both"');
    assert.deepEqual(titles, ['Say in position 1 what is wired: `bridge`']);
    assert.deepEqual(selectorIn(after), ['1 "both" bridge, at lever 1', '2 neck, at lever 3']);
    assert.deepEqual(offered(text, '    2 neck').titles, []);
  });

  it('is not offered while a line of the selector cannot be read, nor elsewhere', () => {
    const text = instrument('  switch lever three', LEVER, '  selector {\n    1 "bridge"\n  }\n');
    assert.deepEqual(offered(text, '  selector {').titles, []);
    assert.deepEqual(offered(instrument('  switch lever three', LEVER), '  pickup bridge').titles, []);
  });
});
