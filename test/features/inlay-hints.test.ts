import assert from 'node:assert/strict';
import { type HintKind, inlayHints } from '../../server/src/features/inlay-hints.ts';
import { SINGLE } from '../support/shop.ts';
import { analysed } from './analysed.ts';

const ALL: ReadonlySet<HintKind> = new Set(['coil resistance', 'inferred turns', 'pickup resistance']);
const whole = { start: 0, end: SINGLE.length };

describe('inlay hints', () => {
  it('a coil shows its resistance behind its first line, a pickup what is read between hot and ground', () => {
    const hints = inlayHints(analysed(SINGLE), whole, ALL);
    assert.deepEqual(
      hints.map(({ kind, offset }) => [kind, SINGLE.slice(0, offset).split('\n').at(-1)]),
      [
        ['pickup resistance', 'pickup wren "Wren" {'],
        ['coil resistance', '  coil main {'],
      ],
    );
    for (const { label } of hints) assert.match(label, /^5\.\d+ ± 0\.\d+\u202fkΩ$/);
    assert.match(hints[0]?.tooltip ?? '', /packing 0\.66/);
  });

  it('a coil without stated turns shows those inferred from its reading', () => {
    const text = SINGLE.replace('    turns 7_700\n', '').replace(
      '  hookup {',
      '  readings "as received" 2026-03-02 {\n    main 5.86 kohm at 20 degC\n  }\n  hookup {',
    );
    const turns = inlayHints(analysed(text), whole, ALL).find(({ kind }) => kind === 'inferred turns');
    assert.match(turns?.label ?? '', /^7\u202f\d{3} ± \d+ turns$/);
  });

  it('a click leads to what it rests on: the turns, the hookup, a reading', () => {
    const restsOn = (text: string) =>
      inlayHints(analysed(text), { start: 0, end: text.length }, ALL).map(
        ({ restsOn }) => restsOn && text.slice(restsOn.start, restsOn.end).split('\n')[0],
      );
    assert.deepEqual(restsOn(SINGLE), ['hookup {', 'turns 7_700']);
    const read = SINGLE.replace(
      '  hookup {',
      '  readings 2026-03-02 {\n    main 5.86 kohm at 20 degC\n  }\n  hookup {',
    );
    assert.deepEqual(restsOn(read), ['hookup {', 'main 5.86 kohm at 20 degC']);
  });

  it('each kind has its own switch, and only what is on the screen is worked out', () => {
    assert.deepEqual(inlayHints(analysed(SINGLE), whole, new Set()), []);
    const onlyCoil = inlayHints(analysed(SINGLE), whole, new Set<HintKind>(['coil resistance']));
    assert.deepEqual(
      onlyCoil.map(({ kind }) => kind),
      ['coil resistance'],
    );
    assert.deepEqual(inlayHints(analysed(SINGLE), { start: 0, end: 10 }, ALL), []);
  });

  it('a circuit without a path reads open', () => {
    const text = SINGLE.replace('strings 6', 'strings 6\n  conductors white black')
      .replace('hot violet', 'hot white')
      .replace('ground grey', 'ground black');
    const [pickup] = inlayHints(analysed(text), whole, new Set<HintKind>(['pickup resistance']));
    assert.equal(pickup?.label, 'open');
  });
});
