import assert from 'node:assert/strict';
import { hover } from '../../server/src/features/hover.ts';
import { type HintKind, inlayHints } from '../../server/src/features/inlay-hints.ts';
import { analysedSample } from '../support/sample-files.ts';
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

describe('inlay hints of a wired instrument', () => {
  const analysis = analysedSample('yarrowby.pickup');
  const at = (offset: number) => analysis.text.slice(0, offset).split('\n').at(-1)?.trim() ?? '';
  const hints = inlayHints(
    analysis,
    { start: 0, end: analysis.text.length },
    new Set(['switch contacts', 'wiring positions']),
  );

  it('stand behind each position, with its contacts, and behind each line of the wiring that carries signal', () =>
    assert.deepEqual(
      hints.map(({ offset, label }) => [at(offset), label]),
      [
        ['1 "bridge" bridge', 'contacts a0–a1'],
        ['2 "bridge, split, and middle" bridge.slug parallel middle', 'contacts a0–a2, b0–b2, c0–c2'],
        ['3 "middle" middle', 'contacts b0–b3'],
        ['4 "middle and neck, split" middle parallel neck.slug', 'contacts a0–a4, b0–b4, c0–c4'],
        ['5 "neck" neck', 'contacts a0–a5'],
        ['hot lever.a0 lever.b0', 'positions 1, 2, 3, 4 and 5'],
        ['link bridge.violet lever.a1 lever.a2', 'positions 1 and 2'],
        ['link neck.violet lever.a4 lever.a5', 'positions 4 and 5'],
        ['link middle.gold lever.b2 lever.b3 lever.b4', 'positions 2, 3 and 4'],
        ['link bridge.grey bridge.turquoise lever.c2', 'position 1'],
        ['link neck.grey neck.turquoise lever.c4', 'position 5'],
      ],
    ));

  it('say more where one rests the pointer on the line', () => {
    const offset = analysis.text.indexOf('bridge.slug parallel');
    const rows =
      hover(analysis, offset)?.text.flatMap((section) => (section.kind === 'values' ? section.rows : [])) ?? [];
    assert.deepEqual(
      rows.slice(-4).map(({ name, value }) => `${name}: ${value}`),
      [
        'the switches stand: lever 2',
        'contacts closed: a0–a2, b0–b2, c0–c2',
        'as wired: bridge slug ∥ middle',
        'silent coils: open on ground: neck.screw and neck.slug; shorted on ground: bridge.screw',
      ],
    );
  });
});
